import {
  bodyClockH,
  LOOKOUT_RULE_TEXT,
  simulateAlertness,
  type AlertnessAt,
  type StartValue,
} from '../../lib/person/index.ts';
import { okUnless, type Problem, type Result } from '../../lib/result/index.ts';
import { formatUtc, MS_PER_H, MS_PER_MIN, parseUtc, utcInterval, type UtcInterval } from '../../lib/time/index.ts';
import {
  command,
  instantOption,
  numberOption,
  reportProblems,
  takeApart,
  type TakenApart,
  WrongUse,
} from './arguments.ts';
import type { CommandIo } from './command.ts';

const HELP = `slatch alertness --sleep START/END[,START/END…] [--from UTC] [--to UTC] [--every-min MIN] [--lon LON]
                 [--lag-min MIN] [--efficiency RATIO] [--s0 S | --start-alertness POINTS] [--as-published] [--json]

  Alertness along recorded or planned sleeps, unclamped, without --from and --to from the first sleep to a day after the
  last, every 60 minutes:
    S, C, U, W   processes of the three-process model: sleep pressure, day rhythm, 12-hour rhythm, sleep inertia
    alertness    S + C + U; 14 high, 7 the risk line, 3 extreme sleepiness
    KSS          sleepiness, 1 wide awake … 9 fighting sleep. FIPS: 10.6 - 0.6 (S + C + U + W). 5c: 9.68 - 0.46 alertness,
                 without W; P90: nine in ten people stay below it (5c + 1.07)
    lapses       unified model of performance, S + 4.13 C: lapses in a ten-minute reaction test; counts debt of weeks
  The body clock is solar time at --lon (default 0, then it is UTC) less --lag-min. --efficiency is the share of each
  interval that is sleep (default 1). When the first sleep begins S is --s0 (default 7.96), or what makes alertness
  --start-alertness; the unified model begins at 0. --as-published lets S jump where sleep begins above 12.2, as the
  published formula taken to the letter does. Group averages: no judgement whether you are fit.

  slatch alertness --sleep 2026-05-26T10:00Z/2026-05-26T15:00Z,2026-05-27T10:30Z/2026-05-27T14:00Z --lon 178 --every-min 30
`;

const MOST_ROWS = 100_000;
const DAY_MS = 24 * MS_PER_H;

/** `slatch alertness`. */
export const alertnessCommand = command({
  name: 'alertness',
  help: HELP,
  run: printAlertness,
});

async function printAlertness(args: readonly string[], io: CommandIo): Promise<number> {
  const given = readArguments(args);
  const sleeps = readSleeps(given.texts.get('sleep') ?? '');
  if (!sleeps.ok) {
    reportProblems(io, sleeps.problems);
    return 1;
  }
  const atEpochMs = instantsOf(given, sleeps.value);
  const [lon, lagMin] = [
    numberOption(given, 'lon', { least: -180, most: 180 }) ?? 0,
    numberOption(given, 'lag-min', { least: -720, most: 720 }) ?? 0,
  ];
  const states = simulateAlertness(sleeps.value, {
    atEpochMs,
    bodyClock: (epochMs) => bodyClockH(epochMs, lon, lagMin),
    sleepEfficiencyRatio: numberOption(given, 'efficiency', { least: 0.1, most: 1 }) ?? 1,
    sleepFormula: given.flags.has('as-published') ? 'as-published' : 'continuous',
    start: startOf(given),
  });
  if (states.includes(null)) {
    reportProblems(io, [beforeFirstSleep(sleeps.value, atEpochMs[0] ?? 0)]);
    return 1;
  }
  const rows = states.flatMap((state) => (state === null ? [] : [state]));
  io.out(
    given.flags.has('json') ? `${JSON.stringify({ lon, lagMin, rows: rows.map(jsonRow) }, null, 2)}\n` : tableOf(rows),
  );
  return 0;
}

function readArguments(args: readonly string[]): TakenApart {
  const given = takeApart(args, {
    sleep: 'text',
    from: 'text',
    to: 'text',
    'every-min': 'text',
    lon: 'text',
    'lag-min': 'text',
    efficiency: 'text',
    s0: 'text',
    'start-alertness': 'text',
    'as-published': 'flag',
    json: 'flag',
  });
  if (typeof given === 'string') throw new WrongUse(given);
  if (given.files.length > 0) throw new WrongUse(`"${given.files.join(' ')}" belongs to no option.`);
  if (!given.texts.has('sleep')) throw new WrongUse('no --sleep is given.');
  if (given.texts.has('s0') && given.texts.has('start-alertness'))
    throw new WrongUse('--s0 and --start-alertness exclude each other.');
  return given;
}

function startOf(given: TakenApart): StartValue {
  const alertnessPoints = numberOption(given, 'start-alertness', { least: 1, most: 21 });
  if (alertnessPoints !== null) return { kind: 'alertness', alertnessPoints };
  return { kind: 's', s: numberOption(given, 's0', { least: 2.4, most: 14.3 }) ?? 7.96 };
}

function instantsOf(given: TakenApart, sleeps: readonly UtcInterval[]): readonly number[] {
  const everyMin = numberOption(given, 'every-min', { least: 1, most: 1440 }) ?? 60;
  const fromEpochMs = instantOption(given, 'from') ?? sleeps[0]?.startEpochMs ?? 0;
  const toEpochMs = instantOption(given, 'to') ?? (sleeps.at(-1)?.endEpochMs ?? 0) + DAY_MS;
  if (toEpochMs < fromEpochMs) throw new WrongUse('--to lies before --from.');
  const count = Math.floor((toEpochMs - fromEpochMs) / (everyMin * MS_PER_MIN)) + 1;
  if (count > MOST_ROWS) throw new WrongUse(`more than ${MOST_ROWS} rows are asked for: take a longer --every-min.`);
  return Array.from({ length: count }, (_, k) => fromEpochMs + k * everyMin * MS_PER_MIN);
}

/** Sleeps in order of time, or everything that is wrong with them. */
function readSleeps(text: string): Result<readonly UtcInterval[]> {
  const problems: Problem[] = [];
  const sleeps: UtcInterval[] = [];
  for (const part of text.split(',')) {
    const [start, end, ...more] = part.split('/').map((instant) => parseUtc(instant.trim(), `--sleep ${part}`));
    problems.push(...[start, end].flatMap((instant) => (instant === undefined || instant.ok ? [] : instant.problems)));
    if (end === undefined || more.length > 0) problems.push(sleepProblem(part, 'It is not one START/END.'));
    else if (start?.ok === true && end.ok) {
      if (end.value > start.value) sleeps.push(utcInterval(start.value, end.value));
      else problems.push(sleepProblem(part, 'It does not end after it starts.'));
    }
  }
  const inOrder = sleeps.toSorted((a, b) => a.startEpochMs - b.startEpochMs);
  for (const [index, sleep] of inOrder.entries())
    if (sleep.startEpochMs < (inOrder[index - 1]?.endEpochMs ?? Number.NEGATIVE_INFINITY))
      problems.push(sleepProblem(formatUtc(sleep.startEpochMs), 'It begins before the sleep before it has ended.'));
  return okUnless(problems, () => inOrder);
}

const sleepProblem = (part: string, what: string): Problem => ({
  code: 'alertness.sleep',
  where: `--sleep ${part}`,
  what,
  expected: 'START/END with commas between, none overlapping, such as 2026-05-26T10:00Z/2026-05-26T15:00Z',
  remedy: 'Correct the interval.',
});

const beforeFirstSleep = (sleeps: readonly UtcInterval[], fromEpochMs: number): Problem => ({
  code: 'alertness.before-first-sleep',
  where: `--from ${formatUtc(fromEpochMs)}`,
  what: 'Nothing is known before the first sleep.',
  expected: `an instant from ${formatUtc(sleeps[0]?.startEpochMs ?? 0)} on`,
  remedy: 'Begin later, or give an earlier sleep.',
});

/** Keys as the models name their processes; both lines to the KSS by the name of where they come from. */
const jsonRow = (state: AlertnessAt): object => ({
  timeUtc: formatUtc(state.epochMs),
  bodyClockH: state.todH,
  asleep: state.asleep,
  inStateH: state.inStateH,
  S: state.s,
  C: state.c,
  U: state.u,
  W: state.w,
  alertness: state.alertnessPoints,
  kssFips: state.kssFipsPoints,
  kss5c: state.kssPoints,
  kss5cP90: state.kssP90Points,
  lapses: state.lapses,
});

const HEADER =
  'UTC                body  state      h      S      C      U      W  alertness  KSS FIPS     5c  5c P90  lapses';

function tableOf(rows: readonly AlertnessAt[]): string {
  const lines = rows.map((row) =>
    [
      formatUtc(row.epochMs).padEnd(17),
      clockText(row.todH).padStart(5),
      row.asleep ? 'asleep' : 'awake ',
      ...[row.inStateH, row.s, row.c, row.u, row.w].map((value) => fixed(value).padStart(5)),
      fixed(row.alertnessPoints).padStart(9),
      fixed(row.kssFipsPoints).padStart(8),
      fixed(row.kssPoints).padStart(5),
      fixed(row.kssP90Points).padStart(6),
      fixed(row.lapses).padStart(6),
    ].join('  '),
  );
  return [HEADER, ...lines, '', LOOKOUT_RULE_TEXT, ''].join('\n');
}

/** Two decimals, and no minus before nothing. */
const fixed = (value: number): string => value.toFixed(2).replace(/^-(0\.00)$/, '$1');

function clockText(todH: number): string {
  const minutes = Math.round(todH * 60) % 1440;
  return `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
}
