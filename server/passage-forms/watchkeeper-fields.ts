import { choice, type EntryField, field } from '../entry-forms/index.ts';

const under = (section: string, of: EntryField): EntryField => ({ ...of, section });
const slope = (key: string, label: string, hint = ''): EntryField =>
  field(['timeFactors', key], label, { unit: 'more per °C', hint });
const ratio = (key: string, label: string): EntryField => field(['timeFactors', key], label, { unit: '× the time' });

/** Kinds of work that have a pace of their own. */
export const PACE_KINDS = [
  ['hauling', 'Halyards, sails, lashings'],
  ['fitting', 'Bolts, shackles, splices, battens'],
  ['sewing', 'Seams, patches, tape outside'],
  ['aloft', 'Aloft and overside'],
  ['below', 'Engine, steering gear, bench'],
] as const;

const MORE_SLEEPS = 3;
/** Rows a form may have: as many as the passage may hold, and those offered. */
const MOST_ROWS = 200 + MORE_SLEEPS;

/** Two instants for each sleep, and some for sleeps to be added. */
export function sleepFields(sleepCount: number, texts: ReadonlyMap<string, string>): readonly EntryField[] {
  const entered = [...texts].flatMap(([name, text]) => {
    const row = /^sleeps\.(\d{1,3})\./.exec(name)?.[1];
    return row === undefined || text.trim() === '' ? [] : [Number(row) + 1];
  });
  const rowCount = Math.min(MOST_ROWS, Math.max(sleepCount + MORE_SLEEPS, ...entered));
  return Array.from({ length: rowCount }, (_, row) => [
    field(['sleeps', row, 'startUtc'], `Sleep ${row + 1}, from`, {
      kind: 'instant',
      section: row === 0 ? 'Sleeps of the last 72 hours or more, ship’s time' : '',
      hint: row === 0 ? 'Time in the bunk. To take a sleep out, empty both of its times.' : '',
    }),
    field(['sleeps', row, 'endUtc'], `Sleep ${row + 1}, to`, { kind: 'instant' }),
  ]).flat();
}

/** What a watchkeeper is like, besides the sleeps. */
export const WATCHKEEPER_FIELDS: readonly EntryField[] = [
  under('Sleep', field(['wantedSleepHPer24H'], 'Wanted sleep', { unit: 'h in 24 h' })),
  field(['leastSleepHPer24H'], 'Alarm below', { unit: 'h in 24 h' }),
  field(['usualSleepLocal'], 'Usually asleep from', {
    kind: 'line',
    hint: 'A time of day on the ship’s clock: 22:00.',
  }),
  field(['bodyClockLagMin'], 'Body clock behind the sun', {
    unit: 'min',
    hint: 'After a flight, say. Below 0: ahead of it.',
  }),
  under('Pace and hands', field(['paceRatio'], 'Own pace', { unit: '× the time', hint: '1.2: a fifth longer.' })),
  ...PACE_KINDS.map(([kind, label]) =>
    field(['paceByWork', kind, 'ratio'], `Pace: ${label.toLowerCase()}`, {
      unit: '× the time',
      hint: 'In the place of the own pace.',
    }),
  ),
  choice(['gloves'], 'Gloves, where the work lets them be worn', [
    { value: '', text: 'default' },
    { value: 'none', text: 'none' },
    { value: 'thin', text: 'thin' },
    { value: 'thick', text: 'thick' },
  ]),
  field(['bodyKg'], 'Weight', { unit: 'kg', hint: 'For energy, and rest after heavy work.' }),
  under(
    'Lines below which a step is not planned',
    field(['gates', 'hardLeastAlertnessPoints'], 'Alertness for heavy work, aloft, overside: at least', {
      unit: 'points',
    }),
  ),
  field(['gates', 'deckLeastAlertnessPoints'], 'Alertness for other work outside: at least', { unit: 'points' }),
  field(['gates', 'hardMostLapses'], 'Lapses for heavy work, aloft, overside: at most', { unit: 'lapses' }),
  field(['gates', 'deckMostLapses'], 'Lapses for other work outside: at most', { unit: 'lapses' }),
  field(['gates', 'hardLongestAwakeH'], 'Awake for heavy work, aloft, overside: at most', { unit: 'h' }),
  under('Cold, heat, tiredness', slope('coldGrossPerC', 'Cold, hauling', 'Wind chill below 10 °C, after an hour.')),
  slope('coldMediumPerC', 'Cold, bolts and shackles'),
  slope('coldFinePerC', 'Cold, needle and splicing'),
  field(['timeFactors', 'wetColderC'], 'Wet hands feel colder by', { unit: '°C' }),
  ratio('glovesThinRatio', 'Thin gloves'),
  ratio('glovesThickRatio', 'Thick gloves'),
  field(['timeFactors', 'assumedHumidityRatio'], 'Humidity where the forecast has none', { hint: '0.8: 80 of 100.' }),
  field(['timeFactors', 'wbgtAdjustC'], 'Heat felt, added', { unit: '°C', hint: 'Below 0: awning and breeze.' }),
  ratio('tiredToKss6Ratio', 'Tired, sleepiness 5 to 6'),
  ratio('tiredToKss8Ratio', 'Tired, sleepiness 6 to 8'),
  ratio('productCapRatio', 'Refused when slowed more than'),
];
