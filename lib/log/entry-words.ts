import { formatPosition } from '../geo/index.ts';
import type { JobEventFile, LogEntryFile, ObservationFile, StatementFile } from './entry.ts';
import { instantOf } from './effective.ts';
import { figure, minWords, utcWords } from './words.ts';
import { MS_PER_MIN } from '../time/index.ts';

/** What an entry says, in a line, without its time. */
export function entryWords(entry: LogEntryFile): string {
  if (entry.kind !== 'correction') return statementWords(entry);
  const what =
    entry.by === null ? 'did not happen' : `is ${utcWords(instantOf(entry.by.atUtc))} ${statementWords(entry.by)}`;
  return `entry ${entry.corrects} ${what}${noteWords(entry.note)}`;
}

function statementWords(statement: StatementFile): string {
  if (statement.kind === 'note') return statement.note;
  const own = statement.kind === 'observation' ? observationWords(statement) : otherWords(statement);
  return `${own}${noteWords(statement.note)}`;
}

const noteWords = (note: string | undefined): string => (note === undefined ? '' : ` (${note})`);

function otherWords(statement: Exclude<StatementFile, ObservationFile | { kind: 'note' }>): string {
  if (statement.kind === 'job') return eventWords(statement);
  const [start, end] = [instantOf(statement.atUtc), instantOf(statement.endUtc)];
  return `slept ${minWords((end - start) / MS_PER_MIN)} until ${utcWords(end)}`;
}

function eventWords({ jobId, event, stepId, workedMin }: JobEventFile): string {
  const step = stepId === undefined ? '' : ` after ${stepId}`;
  const worked = workedMin === undefined ? '' : `, ${figure(workedMin)} min worked`;
  return `${jobId} ${event === 'safe-point' ? 'safe point' : event}${step}${worked}`;
}

function observationWords(seen: ObservationFile): string {
  const { lat, lon } = seen;
  const place = lat === undefined || lon === undefined ? [] : [formatPosition({ lat, lon })];
  return [...place, ...windWords(seen), ...weatherWords(seen)].join(', ');
}

function windWords({ sailState, wind, gustKn }: ObservationFile): string[] {
  return [
    ...(sailState === undefined ? [] : [`set ${sailState}`]),
    ...(wind === undefined ? [] : [windText(wind)]),
    ...(gustKn === undefined ? [] : [`gust ${figure(gustKn)} kn`]),
  ];
}

function windText(wind: NonNullable<ObservationFile['wind']>): string {
  if (wind.kind === 'apparent')
    return `apparent wind ${figure(wind.speedKn)} kn at ${figure(wind.angleDeg)} deg, heading ${figure(wind.headingDegTrue)} deg true at ${figure(wind.boatSpeedKn)} kn`;
  if (wind.fromDegTrue === undefined) return wind.speedKn === 0 ? 'calm' : `wind ${figure(wind.speedKn)} kn`;
  return `wind ${figure(wind.speedKn)} kn from ${figure(wind.fromDegTrue)} deg true`;
}

const SKY_WORDS = {
  clear: 'clear sky',
  'partly-cloudy': 'partly cloudy',
  overcast: 'overcast',
  squalls: 'squalls',
  fog: 'fog',
} as const;

function weatherWords(seen: ObservationFile): string[] {
  const measured: readonly (readonly [string, number | undefined, string])[] = [
    ['pressure', seen.pressureHpa, 'hPa'],
    ['sea', seen.seaHeightM, 'm'],
    ['wave period', seen.wavePeriodS, 's'],
    ['visibility', seen.visibilityNm, 'nm'],
    ['air', seen.airC, 'C'],
    ['sea water', seen.seaWaterC, 'C'],
  ];
  return [
    ...measured.flatMap(([name, value, unit]) => (value === undefined ? [] : [`${name} ${figure(value)} ${unit}`])),
    ...(seen.sky === undefined ? [] : [SKY_WORDS[seen.sky]]),
    ...(seen.rain === undefined ? [] : [seen.rain ? 'rain' : 'no rain']),
  ];
}
