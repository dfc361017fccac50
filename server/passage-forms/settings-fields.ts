import { choice, type EntryField, field, type FieldOption } from '../entry-forms/index.ts';

const option = (value: string, text: string): FieldOption => ({ value, text });
const BY_DEFAULT = option('', 'default');
const under = (section: string, of: EntryField): EntryField => ({ ...of, section });

/** Everything a passage may set, in the order of what is changed most. */
export const SETTINGS_FIELDS: readonly EntryField[] = [
  under(
    'How sure, and how far ahead',
    field(['wantedProbability'], 'Wanted probability', {
      hint: '0.8: four plans of five keep every limit. Lower: more jobs, less sure.',
    }),
  ),
  field(['horizonH'], 'Plan ahead', { unit: 'h', hint: 'From now on, 240 at most.' }),
  field(['keepPlanUnlessBetterPoints'], 'Keep the standing plan unless better by', {
    unit: 'points of 100',
    hint: 'So much more often a new plan must hold together.',
  }),
  field(['probabilityTolerancePoints'], 'Counts as equally sure', {
    unit: 'points of 100',
    hint: 'Probabilities nearer to each other than this count as equal.',
  }),
  under(
    'Clock',
    field(['shipTimeOffsetMin'], 'Ship’s time ahead of UTC', {
      unit: 'min',
      hint: '720: UTC+12; 765: UTC+12:45; -180: UTC−3.',
    }),
  ),
  under(
    'Sleep and look-out',
    choice(
      ['traffic'],
      'Where she sails',
      [
        BY_DEFAULT,
        option('ocean', 'open ocean'),
        option('lane', 'shipping lane'),
        option('coast', 'near a coast'),
        option('ice', 'where there is ice'),
      ],
      'The longest sleep without a look-out goes by it.',
    ),
  ),
  field(['longestSleepMin'], 'Longest sleep without a look-out', { unit: 'min' }),
  field(['lookoutLongestMin'], 'Never longer between two looks round', { unit: 'min' }),
  field(['eyeHeightM'], 'Height of the eye above the water', { unit: 'm' }),
  field(['otherShipKn'], 'Speed of a ship met head-on', { unit: 'kn' }),
  field(['sleepEfficiencyRatio'], 'Share of the time in the bunk that is sleep', {
    hint: '0.85: 51 minutes of an hour.',
  }),
  under(
    'Room for what goes wrong',
    field(['contingencyShare'], 'Weather must hold longer than the work, by', {
      hint: 'Share of its minutes: 0.5 is half as long again.',
    }),
  ),
  field(['contingencyLeastMin'], 'At least by', { unit: 'min' }),
  field(['planningLimitRatio'], 'Search up to this share of a limit', { hint: '0.94: of 20 kn, to 18.8.' }),
  choice(
    ['steadyingWindRule'],
    'Too little wind to steady her in a swell',
    [BY_DEFAULT, option('true', 'no-go aloft and overside, slower on deck'), option('false', 'does not count')],
    'True wind below 5 kn with sea above 0.8 m.',
  ),
  under('Weather', field(['gustRatio'], 'Gusts where the forecast has none', { unit: '× the mean wind' })),
  field(['deckHeightM'], 'Height of the deck above the water, for the wind there', { unit: 'm' }),
  choice(['errorModel'], 'Errors of the forecast', [
    BY_DEFAULT,
    option('default', 'drawn by the error model'),
    option('none', 'none: as if it were right'),
  ]),
  field(['spreadInflationRatio'], 'Spread of an ensemble taken', { unit: '× as it is' }),
  under(
    'Reckoning',
    field(['slotMin'], 'Step of the plan', { unit: 'min', hint: 'Divides an hour: 5, 6, 10, 12, 15, 20, 30 or 60.' }),
  ),
  field(['seed'], 'Seed of what is drawn', { hint: 'The same seed gives the same plan.' }),
];
