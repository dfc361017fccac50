import { LIMIT_CODES, REASON_CODES, STATUS_CODES } from '../plan/plan-codes.table.ts';
import { EVENT_CODES, NUMBER_FIELDS, SKY_CODES } from '../report/report-codes.table.ts';

/** What stands before the numbers of a scale. */
const scale = (stepsPerUnitCount: number, unit: string): string =>
  `${unit === '' ? '' : `${unit} `}x${stepsPerUnitCount}`.trim();

const coded = (codes: readonly { readonly code: string; readonly words: string }[]): string =>
  codes.map(({ code, words }) => `${code} ${words}`).join(', ');

const FRAME_KEY = [
  'EVERY PART',
  '  SL;P.LW.7.1-2;...;ABCDEFG#    from SL; to #. Blanks, line ends and mail quote marks in it do not matter.',
  '  P     kind: P plan, D digest, R report',
  '  LW    sender',
  '  7     counter of this kind, rising: a lower one is an old message',
  '  1-2   part 1 of 2; the parts may come in any order and more than once',
  '  ...   the text: base time, body, : and the seal, cut where the part is full',
  '  ABCDEFG  check of the part: CRC-32, base 32 (A-Z, 2-7)',
  '  The text begins with the base time, YYMMDDHHMM. The seal is 6 characters that show that the parts belong together',
  '  (SHA-256), and behind them 16 of the signature where there is a key (HMAC-SHA256, 80 bits).',
];

const COMMON_KEY = [
  'BODY OF A PLAN OR REPORT: items between /, fields between , and every field begins with its letter',
  '  Times are UTC. DDHHMM: day, hour, minute; of the months the one nearest to the base time. HHMM: the first such time',
  '  at or after the time before it in the same item. YYMMDDHHMM: far off. 280200-0420: from, to.',
  '  Numbers have no decimals: x10 is tenths, 33 is 3.3. A field that is not there is not said, or unknown.',
  '  Names (ids) are in capitals; !A is a capital A, !- is _, (2F) the character with that number.',
  '  Words: . is a blank, !D a full stop, !C a comma, !S /, !K :, !X !, !Q ?, !P %, !A an apostrophe, !N a semicolon, !E =',
];

const planKey = (): string[] => [
  'PLAN (base time: when it was made)',
  '  P7        plan 7. In the same item:',
  '    F6 the forecast is 6 h old, or F and its base time; V after it only conservative defaults; N next forecast',
  '    KS the standing plan is kept (no change), KC it is changed; A all jobs together in so many of 100',
  '    E jobs done on average x10, D h on deck x10, G nm lost x10, Q h of sleep in 24 h x10, U min without look-out',
  '    M so many more jobs of the plan are not sent',
  '  H...      handlings: the first is A, the second B ...',
  '  a job     a letter and its id:',
  ...STATUS_CODES.map(({ code, words }) => `    ${code}  ${words}`),
  '    280200-0420A90  work from, to, under handling A, inside its limits in 90 of 100; several: in stretches',
  '    P90           the same of 100, where no handling is said',
  '    B280320       decide by',
  '    O271840-0320  a start is fair from, to',
  '    R281830-290340A99  if not: start, last start (may be left out), handling, of 100',
  '    S15.22.40     stop at wind kn, gust kn (both over the deck), sea m x10; X: no such limit',
  '    LSH33.40      the limit that binds: expected at the worst moment, allowed',
  '    UDG.VS        limits that are not in the forecast',
  '    W280420-1200  by itself from, to: soak, cure, drying',
  '    MW.291320.C.35  why not planned; nearest start, handling, of 100. The reasons:',
  ...REASON_CODES.map(({ code, words }) => `      ${code} ${words}`),
  '  Z...      sleep from-to, each after the one before; Z alone: none planned',
  '  T...      words',
  '  Limits:',
  ...LIMIT_CODES.map(
    ({ code, words, unit, stepsPerUnitCount }) => `    ${code} ${words}, ${scale(stepsPerUnitCount, unit)}`,
  ),
];

const reportKey = (): string[] => [
  'REPORT (base time: when it was made)',
  '  R271800   changes of jobs since then. In the same item: K085.48 made good 085 true at 4.8 kn, Q-12 change of pressure',
  '            in 3 h, hPa x10',
  '  O271755   observed at. In the same item:',
  '    L35584S175451W  position: degrees, minutes and tenths, hemisphere',
  '    W165.70         true wind from, kn x10; W.70: direction unknown',
  '    A-40.150.085.62 apparent wind: degrees from the bow (starboard +, port -), kn x10, heading true, boat kn x10',
  ...NUMBER_FIELDS.map(
    ({ letter, words, unit, stepsPerUnitCount }) => `    ${letter}  ${words}, ${scale(stepsPerUnitCount, unit)}`,
  ),
  `    S  sky: ${coded(SKY_CODES)}`,
  '    N  rain: Y yes, N no',
  '    X  sail state; T words',
  '  Z271800-2000  in the bunk from, to; T words',
  `  JDROP,P280420  a job and what became of it: ${coded(EVENT_CODES)}; with the time`,
  '    F last step finished, M min worked, T words',
  '  T280420,...   words, with their time',
];

const DIGEST_KEY = [
  'DIGEST (base time: when it was made)',
  '  W24-6-18KN,LEAST281500Z,GUST34,SEA3.1-1.1M! for the eye: mean wind at first, least and at last, when it is least,',
  '  highest gust, highest and lowest sea. Behind ! it is packed, six bits a character (A-Z a-z 0-9 - +): only the program',
  '  reads it, and small letters must stay small.',
];

/** The printed key to all fields of all kinds, one line each; nothing wider than 125 characters. */
export const messageKeyText = (): string =>
  [FRAME_KEY, COMMON_KEY, planKey(), reportKey(), DIGEST_KEY].map((lines) => lines.join('\n')).join('\n\n');
