import { formatPosition } from '../../lib/geo/index.ts';
import type { Job } from '../../lib/jobs/index.ts';
import type { ObservationFile, StatementFile } from '../../lib/log/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { minutesBetween, durationText, epochOf, timeTexts } from './time-texts.ts';

/** What a statement says, in the words of its passage, without its time. */
export function statementWords(statement: StatementFile, passage: Passage): string {
  if (statement.kind === 'note') return statement.note;
  const note = statement.note === undefined ? '' : ` ${sentence(statement.note)}`;
  return `${sentence(bareWords(statement, passage))}${note}`;
}

function bareWords(statement: Exclude<StatementFile, { readonly kind: 'note' }>, passage: Passage): string {
  if (statement.kind === 'observation') return observationWords(statement, passage);
  if (statement.kind === 'sleep') {
    const { time } = timeTexts(passage.settings.shipTimeOffsetMin);
    const slept = durationText(minutesBetween(statement.atUtc, statement.endUtc));
    return `Asleep ${slept}, up again ${time(epochOf(statement.endUtc))}`;
  }
  const job = passage.jobs.find(({ id }) => id === statement.jobId);
  const worked = statement.workedMin === undefined ? '' : `, ${durationText(statement.workedMin)} worked`;
  return `${job?.name ?? statement.jobId}: ${eventWords(statement, job)}${worked}`;
}

const sentence = (text: string): string => (/[.!?]$/.test(text) ? text : `${text}.`);

function eventWords({ event, stepId }: StatementFile & { readonly kind: 'job' }, job: Job | undefined): string {
  const step = stepId === undefined ? '' : ` after “${job?.steps.find(({ id }) => id === stepId)?.name ?? stepId}”`;
  if (event === 'safe-point') return `safe point${step}`;
  return `${event}${step}`;
}

const SKY_WORDS = {
  clear: 'clear sky',
  'partly-cloudy': 'partly cloudy',
  overcast: 'overcast',
  squalls: 'squalls',
  fog: 'fog',
} as const;

function observationWords(seen: ObservationFile, passage: Passage): string {
  const { lat, lon, sailState, gustKn } = seen;
  const set = passage.boat.sailStates.find(({ id }) => id === sailState)?.name ?? sailState;
  const words = [
    ...(lat === undefined || lon === undefined ? [] : [formatPosition({ lat, lon })]),
    ...windWords(seen),
    ...(gustKn === undefined ? [] : [`gusts ${withUnit(gustKn, 'kn')}`]),
    ...weatherWords(seen),
    ...(set === undefined ? [] : [`set: ${set}`]),
  ];
  const [first = '', ...rest] = words;
  return [`${first.charAt(0).toUpperCase()}${first.slice(1)}`, ...rest].join(', ');
}

function windWords({ wind }: ObservationFile): string[] {
  if (wind === undefined) return [];
  if (wind.kind === 'apparent')
    return [
      `apparent wind ${withUnit(wind.speedKn, 'kn')} at ${wind.angleDeg}°, heading ${threeDigits(wind.headingDegTrue)}° true at ${withUnit(wind.boatSpeedKn, 'kn')}`,
    ];
  if (wind.speedKn === 0) return ['calm'];
  return [
    `wind ${withUnit(wind.speedKn, 'kn')}${wind.fromDegTrue === undefined ? '' : ` from ${threeDigits(wind.fromDegTrue)}° true`}`,
  ];
}

/** A figure that is not parted from its unit at the end of a line. */
const withUnit = (value: number, unit: string): string => `${String(value).replace('-', '−')}\u{A0}${unit}`;

const threeDigits = (angleDeg: number): string => {
  const [whole = '', rest] = String(angleDeg).split('.');
  return `${whole.padStart(3, '0')}${rest === undefined ? '' : `.${rest}`}`;
};

function weatherWords(seen: ObservationFile): string[] {
  const figures: readonly (readonly [name: string, value: number | undefined, unit: string])[] = [
    ['barometer', seen.pressureHpa, 'hPa'],
    ['sea', seen.seaHeightM, 'm'],
    ['wave period', seen.wavePeriodS, 's'],
    ['visibility', seen.visibilityNm, 'nm'],
    ['air', seen.airC, '°C'],
    ['water', seen.seaWaterC, '°C'],
  ];
  const told = figures.flatMap(([name, value, unit]) =>
    value === undefined ? [] : [`${name} ${withUnit(value, unit)}`],
  );
  return [
    ...told,
    ...(seen.sky === undefined ? [] : [SKY_WORDS[seen.sky]]),
    ...(seen.rain === undefined ? [] : [seen.rain ? 'rain' : 'dry']),
  ];
}
