import type { Job } from '../../lib/jobs/index.ts';
import { choice, type EntryField, field, type FieldOption } from '../entry-forms/index.ts';

export type LogKind = 'observation' | 'sleep' | 'job' | 'note';

/** What a form has to know besides. */
export interface LogSurroundings {
  readonly sailStates: readonly { readonly id: string; readonly name: string }[];
  /** The job a job event is of; null: another form. */
  readonly job: Job | null;
  /** Its id where the passage no longer has it. */
  readonly jobId?: string;
  /** Ship's time, minutes ahead of UTC. */
  readonly shipTimeOffsetMin: number;
  readonly nowEpochMs: number;
}

const SHIP = 'ship';
export const UTC = 'utc';

const NOT_SAID: FieldOption = { value: '', text: 'not said' };

const clock = choice(['clock'], 'Times are', [
  { value: SHIP, text: 'ship’s time' },
  { value: UTC, text: 'UTC' },
]);
const note = field(['note'], 'Note', { kind: 'line' });
const at = (label: string, hint: string): EntryField => field(['atUtc'], label, { kind: 'line', hint });

const SKIES: readonly FieldOption[] = [
  NOT_SAID,
  { value: 'clear', text: 'clear' },
  { value: 'partly-cloudy', text: 'partly cloudy' },
  { value: 'overcast', text: 'overcast' },
  { value: 'squalls', text: 'squalls' },
  { value: 'fog', text: 'fog' },
];

export const EVENTS: readonly FieldOption[] = [
  { value: 'started', text: 'started' },
  { value: 'safe-point', text: 'safe point reached' },
  { value: 'stopped', text: 'stopped' },
  { value: 'done', text: 'done' },
];

const observation = ({ sailStates }: LogSurroundings): readonly EntryField[] => [
  at('When', 'Empty: now.'),
  clock,
  field(['position'], 'Position', {
    kind: 'line',
    hint: 'Latitude first: 36 18.2 S 178 06.0 E, or -36.303, 178.1.',
  }),
  field(['wind', 'speedKn'], 'Speed', { unit: 'kn', section: 'Wind', hint: 'The mean of some minutes.' }),
  choice(['wind', 'kind'], 'It is', [
    { value: 'true', text: 'true wind' },
    { value: 'apparent', text: 'apparent wind, as the masthead shows it' },
  ]),
  field(['wind', 'fromDegTrue'], 'From', { unit: '° true', hint: 'Of true wind.' }),
  field(['gustKn'], 'Gusts', { unit: 'kn' }),
  field(['wind', 'angleDeg'], 'Angle from the bow', {
    unit: '°',
    section: 'Of apparent wind also',
    hint: 'To starboard; to port with a minus.',
  }),
  field(['wind', 'headingDegTrue'], 'Heading', { unit: '° true' }),
  field(['wind', 'boatSpeedKn'], 'Speed through the water', { unit: 'kn' }),
  field(['pressureHpa'], 'Barometer', { unit: 'hPa', section: 'Barometer, sea, sky', hint: 'As it shows.' }),
  field(['seaHeightM'], 'Sea', { unit: 'm', hint: 'Significant height, as seen.' }),
  field(['wavePeriodS'], 'Wave period', { unit: 's' }),
  choice(['sky'], 'Sky', SKIES),
  choice(['rain'], 'Rain', [NOT_SAID, { value: 'yes', text: 'rain' }, { value: 'no', text: 'dry' }]),
  field(['visibilityNm'], 'Visibility', { unit: 'nm' }),
  field(['airC'], 'Air', { unit: '°C', section: 'Temperature, sails' }),
  field(['seaWaterC'], 'Water', { unit: '°C' }),
  choice(['sailState'], 'Sails set', [NOT_SAID, ...sailStates.map(({ id, name }) => ({ value: id, text: name }))]),
  note,
];

const sleep: readonly EntryField[] = [
  at('In the bunk', 'When you lay down.'),
  field(['endUtc'], 'Up again', { kind: 'line', hint: 'Empty: now.' }),
  clock,
  note,
];

function jobEvent({ job }: LogSurroundings): readonly EntryField[] {
  const steps = (job?.steps ?? []).map(({ id, name }) => ({ value: id, text: name }));
  return [
    choice(['event'], 'What became of it', EVENTS),
    choice(
      ['stepId'],
      'Safe point after',
      [NOT_SAID, ...steps],
      'The last step that is finished; only for a safe point.',
    ),
    at('When', 'Empty: now.'),
    clock,
    field(['workedMin'], 'Worked', {
      unit: 'min',
      hint: 'Since the start or the last safe point, breaks left out. Empty: by the clock.',
    }),
    note,
  ];
}

const words: readonly EntryField[] = [field(['note'], 'Note', { kind: 'line' }), at('When', 'Empty: now.'), clock];

/** The inputs of one kind of entry, in their order. */
export function logFields(kind: LogKind, around: LogSurroundings): readonly EntryField[] {
  if (kind === 'observation') return observation(around);
  if (kind === 'job') return jobEvent(around);
  return kind === 'sleep' ? sleep : words;
}

export const isLogKind = (text: string): text is LogKind => ['observation', 'sleep', 'job', 'note'].includes(text);
