import { failed, ok, type Result } from '../../result/index.ts';
import { MS_PER_H } from '../../time/index.ts';
import { parseId } from '../text/id-text.ts';
import { ItemTimesReader } from '../text/item-times.ts';
import { parseNote } from '../text/note-text.ts';
import { parsePercent, parseScaled } from '../text/scaled.ts';
import { parseInstant } from '../text/times.ts';
import { FIELD_SEPARATOR, ITEM_SEPARATOR } from '../text/separators.ts';
import { readJobItem } from './read-plan-job.ts';
import { STATUS_CODES } from './plan-codes.table.ts';
import type { PlanMessage, PlanMessageJob, Span } from './plan-message.ts';

type Writable<T> = { -readonly [K in keyof T]: T[K] };

/**
 * The plan of a body; `message.plan-unreadable` names the first item or field that is not known, and nothing of it is used.
 *
 * @param baseEpochMs base time of the message: when the plan was made
 */
export function readPlanBody(
  body: string,
  of: { readonly baseEpochMs: number; readonly where: string },
): Result<PlanMessage> {
  const [headText = '', ...items] = body.split(ITEM_SEPARATOR);
  const head = readHead(headText, of.baseEpochMs);
  if (head === null) return unreadable(headText, of.where);
  const handlings: string[] = [];
  const jobs: PlanMessageJob[] = [];
  let [sleeps, note]: [readonly Span[] | null, string | null] = [null, null];
  for (const text of items) {
    const isRead = (): boolean => {
      const letter = text.charAt(0);
      if (letter === 'H') return readHandlings(text, handlings);
      if (letter === 'Z') return (sleeps = sleeps === null ? readSleeps(text, of.baseEpochMs) : null) !== null;
      if (letter === 'T') return (note = note === null ? parseNote(text.slice(1)) : null) !== null;
      if (!STATUS_CODES.some(({ code }) => code === letter)) return false;
      const job = readJobItem(text, { handlings, baseEpochMs: of.baseEpochMs });
      if (job !== null) jobs.push(job);
      return job !== null;
    };
    if (!isRead()) return unreadable(text, of.where);
  }
  return ok({ kind: 'plan', madeEpochMs: of.baseEpochMs, ...head, jobs, sleeps, note });
}

const unreadable = (text: string, where: string): Result<never> =>
  failed({
    code: 'message.plan-unreadable',
    where,
    what: `"${text.slice(0, 60)}" is no item of a plan this program knows.`,
    expected: 'the items of the printed key (slatch message key)',
    remedy: 'Another version may have written it: nothing of it is used. Ask for the plan in plain words.',
  });

function readHandlings(text: string, handlings: string[]): boolean {
  const ids = text.slice(1).split(FIELD_SEPARATOR).map(parseId);
  const known = ids.filter((id) => id !== null);
  if (handlings.length > 0 || known.length < ids.length) return false;
  handlings.push(...known);
  return true;
}

function readSleeps(text: string, baseEpochMs: number): readonly Span[] | null {
  if (text === 'Z') return [];
  const times = new ItemTimesReader(baseEpochMs);
  const spans = text
    .slice(1)
    .split(FIELD_SEPARATOR)
    .map((span) => times.span(span));
  const known = spans.filter((span) => span !== null);
  return known.length === spans.length ? known : null;
}

type Head = Writable<Omit<PlanMessage, 'kind' | 'madeEpochMs' | 'jobs' | 'sleeps' | 'note'>>;

function readHead(text: string, baseEpochMs: number): Head | null {
  const [first = '', ...fields] = text.split(FIELD_SEPARATOR);
  const numberText = /^P(\d{0,7})$/.exec(first)?.[1];
  if (numberText === undefined) return null;
  const values = new Map<string, string>();
  for (const field of fields) {
    const letter = field.charAt(0);
    if (!'FVNKAEDGQUM'.includes(letter) || letter === '' || values.has(letter)) return null;
    values.set(letter, field.slice(1));
  }
  let isRead = true;
  /** Null where the field is not there; where it cannot be read, the whole head is not. */
  const get = <T>(letter: string, parse: (text: string) => T | null): T | null => {
    const value = values.get(letter);
    if (value === undefined) return null;
    const parsed = parse(value);
    if (parsed === null) isRead = false;
    return parsed;
  };
  const instant = (value: string): number | null =>
    value.length < 6 ? null : parseInstant(value, { afterEpochMs: baseEpochMs, baseEpochMs });
  const tenths = (value: string): number | null => parseScaled(value, 10);
  const whole = (value: string): number | null => parseScaled(value, 1);
  const forecastBaseEpochMs = get('F', (value) =>
    /^\d{1,2}$/.test(value) ? baseEpochMs - Number(value) * MS_PER_H : instant(value),
  );
  const head = {
    planNumber: numberText === '' ? null : Number(numberText),
    validUntilEpochMs: get('V', instant),
    nextForecastEpochMs: get('N', instant),
    standing: get('K', (value) => (value === 'S' ? ('kept' as const) : value === 'C' ? ('changed' as const) : null)),
    allDoneProbability: get('A', parsePercent),
    expectedDoneCount: get('E', tenths),
    deckH: get('D', tenths),
    lostNm: get('G', tenths),
    sleepHPer24H: get('Q', tenths),
    unwatchedMin: get('U', whole),
    leftOutCount: get('M', whole) ?? 0,
  };
  return isRead && forecastBaseEpochMs !== null ? { ...head, forecastBaseEpochMs } : null;
}
