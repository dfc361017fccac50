import { formatPosition, parsePosition } from '../../lib/geo/index.ts';
import { readLogEntry, type StatementFile } from '../../lib/log/index.ts';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import { formatUtc, MS_PER_MIN, parseUtc } from '../../lib/time/index.ts';
import { entryOf, textsOf } from '../entry-forms/index.ts';
import { shipTimeOf, utcOfShipTime } from '../presenters/ship-time.ts';
import { logFields, type LogKind, type LogSurroundings, UTC } from './log-fields.ts';
import { ENTRY, WHERE } from './places.ts';
import { windOf } from './wind.ts';

type Texts = ReadonlyMap<string, string>;
type Raw = Readonly<Record<string, unknown>>;

/** A thousandth of a minute is two metres. */
const POSITION_DIGITS = 3;

/** What the inputs show of a statement. */
export function statementTexts(statement: StatementFile, around: LogSurroundings): Texts {
  const offsetMin = around.shipTimeOffsetMin;
  const shown: Raw = {
    ...statement,
    atUtc: shipTimeOf(statement.atUtc, offsetMin),
    ...(statement.kind === 'sleep' ? { endUtc: shipTimeOf(statement.endUtc, offsetMin) } : {}),
    ...(statement.kind === 'observation' ? observedTexts(statement) : {}),
    clock: 'ship',
  };
  return textsOf(logFields(statement.kind, around), shown);
}

function observedTexts({ lat, lon, rain }: StatementFile & { readonly kind: 'observation' }): Raw {
  return {
    ...(lat === undefined || lon === undefined ? {} : { position: formatPosition({ lat, lon }, POSITION_DIGITS) }),
    ...(rain === undefined ? {} : { rain: rain ? 'yes' : 'no' }),
  };
}

interface Entered {
  readonly kind: LogKind;
  readonly texts: Texts;
  /** What is corrected: a text that was not changed keeps its value. null: a new entry. */
  readonly before: StatementFile | null;
}

/**
 * What a form says, or everything that is wrong with it, each with the path of its input (`entry.wind.speedKn`).
 *
 * @returns the problems of `readLogEntry`, and `geo.not-a-position`, `log.other-wind`
 */
export function statementOf({ kind, texts, before }: Entered, around: LogSurroundings): Result<StatementFile> {
  const raw = entryOf(logFields(kind, around), {}, texts);
  const kept = before === null ? {} : untouched(before, texts, around);
  const seen = kind === 'observation' ? observed(raw, 'lat' in kept) : { values: {}, problems: [] };
  const { position: _, rain: _rain, wind: _wind, clock: _clock, ...plain } = raw;
  const read = readLogEntry(
    {
      ...plain,
      ...instants(kind, raw, around),
      ...(kind === 'job' ? { jobId: around.job?.id ?? around.jobId } : {}),
      ...seen.values,
      ...kept,
      kind,
    },
    WHERE,
  );
  const own = seen.problems;
  // A form with a wrong position has seen something.
  const found = read.ok ? [] : read.problems.filter(({ code }) => own.length === 0 || code !== 'log.nothing-seen');
  const [first, ...rest] = [...own, ...found.map(inEntry)];
  if (first !== undefined) return failed(first, ...rest);
  if (!read.ok || read.value.kind === 'correction') throw new Error('a form of the log makes a statement');
  return ok(read.value);
}

interface Observed {
  /** Place, wind and rain as the entry has them, as far as they can be read. */
  readonly values: Raw;
  readonly problems: readonly Problem[];
}

function observed({ position, wind, rain }: Raw, isPlaceKept: boolean): Observed {
  const parts = [isPlaceKept ? ok({}) : placeOf(position), windOf(wind)];
  const values = parts.flatMap((part) => (part.ok ? Object.entries<unknown>(part.value) : []));
  return {
    values: { ...Object.fromEntries(values), ...(rain === undefined ? {} : { rain: rain === 'yes' }) },
    problems: parts.flatMap((part) => (part.ok ? [] : part.problems)),
  };
}

/** When it happened: an empty time is now, but nobody lies down now. */
function instants(kind: LogKind, { atUtc, endUtc, clock }: Raw, around: LogSurroundings): Raw {
  const instant = instantReader(clock === UTC ? 0 : around.shipTimeOffsetMin, around.nowEpochMs);
  if (kind !== 'sleep') return { atUtc: instant(atUtc) };
  return { ...(atUtc === undefined ? {} : { atUtc: instant(atUtc) }), endUtc: instant(endUtc) };
}

/** The same problem at its input. */
export function inEntry(problem: Problem): Problem {
  const [, inside = ''] = problem.where.split(`${WHERE}, `);
  return { ...problem, where: inside === '' ? WHERE : `${WHERE}, ${ENTRY}.${inside}` };
}

/** An instant of an input as UTC; an empty one is now, and what is none stays a text for the check to name it. */
function instantReader(offsetMin: number, nowEpochMs: number): (text: unknown) => string {
  return (text) => {
    if (typeof text !== 'string') return formatUtc(Math.floor(nowEpochMs / MS_PER_MIN) * MS_PER_MIN);
    // With Z or an offset it says itself which clock is meant.
    return parseUtc(text, '').ok ? text : utcOfShipTime(text, offsetMin);
  };
}

function placeOf(text: unknown): Result<Raw> {
  if (typeof text !== 'string') return ok({});
  const read = parsePosition(text, `${WHERE}, ${ENTRY}.position`);
  return read.ok ? ok({ lat: rounded(read.value.lat), lon: rounded(read.value.lon) }) : read;
}

/** To a hundred-thousandth of a degree, a metre: minutes divided by sixty do not end. */
const rounded = (angleDeg: number): number => Math.round(angleDeg * 1e5) / 1e5;

/** Values that the inputs show only roughly, where nobody has touched them. */
function untouched(before: StatementFile, texts: Texts, around: LogSurroundings): Raw {
  const shown = statementTexts(before, around);
  const isSame = (name: string): boolean => shown.get(name) === texts.get(name)?.trim();
  const isClock = isSame('clock');
  return {
    ...(isClock && isSame('atUtc') ? { atUtc: before.atUtc } : {}),
    ...(before.kind === 'sleep' && isClock && isSame('endUtc') ? { endUtc: before.endUtc } : {}),
    ...(before.kind === 'observation' && before.lat !== undefined && isSame('position')
      ? { lat: before.lat, ...(before.lon === undefined ? {} : { lon: before.lon }) }
      : {}),
  };
}
