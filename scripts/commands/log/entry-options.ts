import { parsePosition } from '../../../lib/geo/index.ts';
import type { StatementFile } from '../../../lib/log/index.ts';
import { formatProblem } from '../../../lib/result/index.ts';
import { WrongUse, type OptionKinds, type TakenApart } from '../arguments.ts';
import { plainNumber, spanOption } from './arguments.ts';

type Kind = StatementFile['kind'];

/** Options of an observation that hold one number, and its key in the entry. */
const SEEN_NUMBERS: Readonly<Record<string, string>> = {
  lat: 'lat',
  lon: 'lon',
  'gust-kn': 'gustKn',
  'pressure-hpa': 'pressureHpa',
  'sea-m': 'seaHeightM',
  'period-s': 'wavePeriodS',
  'visibility-nm': 'visibilityNm',
  'air-c': 'airC',
  'water-c': 'seaWaterC',
};

const WIND_NUMBERS = ['wind-kn', 'wind-from', 'apparent-kn', 'apparent-deg', 'heading', 'boat-kn'] as const;
const SEEN_TEXTS = ['position', 'sail-state', 'sky', 'rain'] as const;

/** Options by the kind of entry they make. */
const OPTIONS_OF: Readonly<Record<Exclude<Kind, 'note'>, readonly string[]>> = {
  observation: [...Object.keys(SEEN_NUMBERS), ...WIND_NUMBERS, ...SEEN_TEXTS],
  sleep: ['sleep'],
  job: ['job', 'event', 'step', 'worked-min'],
};

export const ENTRY_OPTIONS: OptionKinds = Object.fromEntries(
  [...Object.values(OPTIONS_OF).flat(), 'note', 'at'].map((name) => [name, 'text' as const]),
);

/** An entry as the options say, not yet checked: null when they say nothing. `atUtc` is left to the caller but of a sleep. */
export type GivenStatement = { readonly kind: Kind } & Readonly<Record<string, unknown>>;

/** The statement the options describe; options of two kinds of entry at once are wrong use. */
export function givenStatement(given: TakenApart): GivenStatement | null {
  const isKind = (kind: keyof typeof OPTIONS_OF): boolean => OPTIONS_OF[kind].some((name) => given.texts.has(name));
  const kinds = (['observation', 'sleep', 'job'] as const).filter(isKind);
  const [kind, other] = kinds;
  if (kind !== undefined && other !== undefined)
    throw new WrongUse(`options of an entry of kind ${kind} and of one of kind ${other}; write two entries.`);
  const note = given.texts.get('note');
  if (kind === undefined) return note === undefined ? null : { kind: 'note', note };
  return { kind, ...fieldsOf(kind, given), ...(note === undefined ? {} : { note }) };
}

function fieldsOf(kind: keyof typeof OPTIONS_OF, given: TakenApart): Readonly<Record<string, unknown>> {
  if (kind === 'observation') return observationFields(given);
  return kind === 'sleep' ? sleepFields(given) : jobFields(given);
}

function sleepFields(given: TakenApart): Readonly<Record<string, unknown>> {
  const span = spanOption(given, 'sleep');
  if (span === null) throw new Error('a sleep was given');
  if (given.texts.has('at')) throw new WrongUse('--sleep says its own time; leave --at out.');
  return { atUtc: span.startUtc, endUtc: span.endUtc };
}

function jobFields(given: TakenApart): Readonly<Record<string, unknown>> {
  const workedMin = plainNumber(given, 'worked-min');
  return {
    ...textAs(given, { job: 'jobId', event: 'event', step: 'stepId' }),
    ...(workedMin === null ? {} : { workedMin }),
  };
}

function observationFields(given: TakenApart): Readonly<Record<string, unknown>> {
  const numbers = Object.entries(SEEN_NUMBERS).flatMap(([name, key]) => {
    const value = plainNumber(given, name);
    return value === null ? [] : [[key, value] as const];
  });
  return {
    ...Object.fromEntries(numbers),
    ...positionField(given),
    ...textAs(given, { 'sail-state': 'sailState', sky: 'sky' }),
    ...rainField(given),
    ...windField(given),
  };
}

const textAs = (given: TakenApart, keys: Readonly<Record<string, string>>): Readonly<Record<string, string>> =>
  Object.fromEntries(
    Object.entries(keys).flatMap(([name, key]) => {
      const text = given.texts.get(name);
      return text === undefined ? [] : [[key, text] as const];
    }),
  );

function positionField(given: TakenApart): { lat: number; lon: number } | object {
  const text = given.texts.get('position');
  if (text === undefined) return {};
  if (given.texts.has('lat') || given.texts.has('lon')) throw new WrongUse('--position, or --lat and --lon, not both.');
  const position = parsePosition(text, '--position');
  if (!position.ok) throw new WrongUse(formatProblem(position.problems[0]));
  return position.value;
}

function rainField(given: TakenApart): { rain: boolean } | object {
  const text = given.texts.get('rain');
  if (text === undefined) return {};
  if (text !== 'yes' && text !== 'no') throw new WrongUse(`--rain ${text}: expected yes or no.`);
  return { rain: text === 'yes' };
}

/** True wind by `--wind-kn`, apparent wind by `--apparent-kn` with angle, heading and boat speed. */
function windField(given: TakenApart): object {
  const of = (name: (typeof WIND_NUMBERS)[number]): number | null => plainNumber(given, name);
  const apparent = {
    speedKn: of('apparent-kn'),
    angleDeg: of('apparent-deg'),
    headingDegTrue: of('heading'),
    boatSpeedKn: of('boat-kn'),
  };
  const [speedKn, fromDegTrue] = [of('wind-kn'), of('wind-from')];
  const isApparent = Object.values(apparent).some((value) => value !== null);
  if (isApparent && (speedKn !== null || fromDegTrue !== null))
    throw new WrongUse('true wind (--wind-kn, --wind-from) or apparent wind, not both.');
  if (isApparent) {
    if (Object.values(apparent).includes(null))
      throw new WrongUse('apparent wind needs --apparent-kn, --apparent-deg, --heading and --boat-kn.');
    return { wind: { kind: 'apparent', ...apparent } };
  }
  if (speedKn === null && fromDegTrue === null) return {};
  if (speedKn === null) throw new WrongUse('--wind-from needs --wind-kn.');
  return { wind: { kind: 'true', speedKn, ...(fromDegTrue === null ? {} : { fromDegTrue }) } };
}
