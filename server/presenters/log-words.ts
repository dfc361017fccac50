import { formatPosition } from '../../lib/geo/index.ts';
import type { Job } from '../../lib/jobs/index.ts';
import type { ObservationFile, StatementFile } from '../../lib/log/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { minutesBetween, durationText, epochOf, timeTexts } from './time-texts.ts';
import { amountText } from './amount-texts.ts';
import { isShownAsItIs } from './units/amounts.ts';
import { PLAIN_UNITS, type ShownUnits } from './units/shown-units.ts';

/**
 * What a statement says, in the words of its passage, without its time. Notes stay as they were written.
 *
 * @param units of the reader; a message says it in kn, m and °C
 */
export function statementWords(statement: StatementFile, passage: Passage, units: ShownUnits = PLAIN_UNITS): string {
  if (statement.kind === 'note') return statement.note;
  const note = statement.note === undefined ? '' : ` ${sentence(statement.note)}`;
  return `${sentence(bareWords(statement, passage, units))}${note}`;
}

function bareWords(
  statement: Exclude<StatementFile, { readonly kind: 'note' }>,
  passage: Passage,
  units: ShownUnits,
): string {
  if (statement.kind === 'observation') return observationWords(statement, passage, units);
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

function observationWords(seen: ObservationFile, passage: Passage, units: ShownUnits): string {
  const { lat, lon, sailState, gustKn } = seen;
  const set = passage.boat.sailStates.find(({ id }) => id === sailState)?.name ?? sailState;
  const words = [
    ...(lat === undefined || lon === undefined ? [] : [formatPosition({ lat, lon })]),
    ...windWords(seen, units),
    ...(gustKn === undefined ? [] : [`gusts ${inUnits(gustKn, 'kn', units)}`]),
    ...weatherWords(seen, units),
    ...(set === undefined ? [] : [`set: ${set}`]),
  ];
  const [first = '', ...rest] = words;
  return [`${first.charAt(0).toUpperCase()}${first.slice(1)}`, ...rest].join(', ');
}

function windWords({ wind }: ObservationFile, units: ShownUnits): string[] {
  if (wind === undefined) return [];
  if (wind.kind === 'apparent')
    return [
      `apparent wind ${inUnits(wind.speedKn, 'kn', units)} at ${wind.angleDeg}°, heading ${threeDigits(wind.headingDegTrue)}° true at ${withUnit(wind.boatSpeedKn, 'kn')}`,
    ];
  if (wind.speedKn === 0) return ['calm'];
  return [
    `wind ${inUnits(wind.speedKn, 'kn', units)}${wind.fromDegTrue === undefined ? '' : ` from ${threeDigits(wind.fromDegTrue)}° true`}`,
  ];
}

/** A figure that is not parted from its unit at the end of a line. */
const withUnit = (value: number, unit: string): string => `${String(value).replace('-', '−')}\u{A0}${unit}`;

/** A figure as it was written, or in the reader's unit. */
function inUnits(value: number, unit: string, units: ShownUnits): string {
  if (isShownAsItIs(unit, units)) return withUnit(value, unit);
  return amountText(value, unit, units)
    .replace(/ (?=\S+$)/, '\u{A0}')
    .replace('-', '−');
}

const threeDigits = (angleDeg: number): string => {
  const [whole = '', rest] = String(angleDeg).split('.');
  return `${whole.padStart(3, '0')}${rest === undefined ? '' : `.${rest}`}`;
};

function weatherWords(seen: ObservationFile, units: ShownUnits): string[] {
  const figures: readonly (readonly [name: string, value: number | undefined, unit: string])[] = [
    ['barometer', seen.pressureHpa, 'hPa'],
    ['sea', seen.seaHeightM, 'm'],
    ['wave period', seen.wavePeriodS, 's'],
    ['visibility', seen.visibilityNm, 'nm'],
    ['air', seen.airC, '°C'],
    ['water', seen.seaWaterC, '°C'],
  ];
  const told = figures.flatMap(([name, value, unit]) =>
    value === undefined ? [] : [`${name} ${inUnits(value, unit, units)}`],
  );
  return [
    ...told,
    ...(seen.sky === undefined ? [] : [SKY_WORDS[seen.sky]]),
    ...(seen.rain === undefined ? [] : [seen.rain ? 'rain' : 'dry']),
  ];
}
