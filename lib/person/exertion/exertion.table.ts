import type { Constant } from '../constant.ts';

/** An activity with what it costs, in multiples of sitting still. */
export interface Activity extends Constant {
  readonly activity: string;
}

const activity = (met: number, words: string): Activity => ({
  value: met,
  unit: 'MET',
  sourceId: 'COMPENDIUM_2011',
  note: 'code and figure seen in a public data file of the compendium; the words are ours',
  activity: words,
});

/** Activities near to work on a boat, by code of the 2011 compendium. */
export const METS = {
  '11038': activity(2.5, 'joinery, light'),
  '11040': activity(4.3, 'joinery, moderate'),
  '11042': activity(7, 'joinery, heavy'),
  '11050': activity(8, 'carrying heavy tools and loads'),
  '11130': activity(3.3, 'electrical work, joining wires'),
  '11246': activity(9, 'dragging hoses and hoisting gear in full fire kit'),
  '11247': activity(3.5, 'fishing for a living, light'),
  '11248': activity(5, 'fishing for a living, moderate'),
  '11249': activity(7, 'fishing for a living, hard'),
  '11430': activity(3, 'work on metal, fitting, light to moderate'),
  '11477': activity(6.5, 'hard labour of any kind'),
  '11490': activity(7.5, 'moving or pushing things of 34 kg and more'),
  '11516': activity(3, 'plumbing'),
  '11580': activity(1.5, 'light work sitting: small repairs, reading, writing'),
  '11600': activity(3, 'light work standing'),
  '11610': activity(3, 'work on heavy parts or an engine, standing'),
  '11615': activity(4.5, 'lifting 5 to 9 kg without a pause, standing'),
  '11620': activity(3.5, 'standing, ropes to hitch and twist, at times 23 kg to lift'),
  '11630': activity(4.5, 'standing, more than 23 kg to lift'),
  '11730': activity(2.5, 'work on cloth of any kind'),
  '11740': activity(1.8, 'sewing by hand'),
  '11750': activity(2.5, 'sewing by machine'),
  '11830': activity(6.5, 'carrying 23 to 34 kg'),
  '11840': activity(7.5, 'carrying 34 to 45 kg'),
  '11850': activity(8.5, 'carrying 45 kg and more'),
  '18040': activity(2.8, 'rowing, light'),
  '18050': activity(5.8, 'rowing, moderate'),
  '18060': activity(12.5, 'rowing in a race'),
  '18120': activity(3, 'sailing of any kind'),
  '18130': activity(4.5, 'sailing in a race'),
  '18140': activity(3.3, 'sailing a keelboat at sea for pleasure'),
} as const satisfies Readonly<Record<string, Activity>>;

export const EXERTION = {
  /** 1 MET, and what a litre of oxygen burns. */
  oxygenPerMet: { value: 3.5, unit: 'ml O2 / (kg min)', sourceId: null, note: 'standard conversion, from memory' },
  kcalPerLitre: { value: 5, unit: 'kcal / l O2', sourceId: null, note: 'standard conversion, from memory' },
  /** What a day of work may cost on average, and what rest costs. */
  workLimit: {
    value: 5,
    unit: 'kcal/min',
    sourceId: 'MURRELL_1965',
    note: 'at second hand; for men; 4 for women from memory',
  },
  rest: { value: 1.5, unit: 'kcal/min', sourceId: 'MURRELL_1965', note: 'at second hand' },
  /** Share of the greatest force that is held without an end the formula could give. */
  heldForLong: { value: 0.15, unit: 'ratio', sourceId: 'BERNARD_2006', note: 'citing Rohmert' },
  /** Endurance of a static hold [min]: a + b/f + c/f² + d/f³. */
  enduranceConstant: { value: -1.5, unit: 'min', sourceId: 'BERNARD_2006', note: 'citing Rohmert' },
  enduranceInverse: { value: 2.1, unit: 'min', sourceId: 'BERNARD_2006', note: 'citing Rohmert' },
  enduranceSquare: { value: -0.6, unit: 'min', sourceId: 'BERNARD_2006', note: 'citing Rohmert' },
  enduranceCube: { value: 0.1, unit: 'min', sourceId: 'BERNARD_2006', note: 'citing Rohmert' },
  /** Rest after a hold, as a ratio of it: scale (t/T)^power (f − 0.15)^0.5. */
  restScale: { value: 18, unit: 'ratio', sourceId: 'ROHMERT_1973', note: 'from memory' },
  restTimePower: { value: 1.4, unit: 'power', sourceId: 'ROHMERT_1973', note: 'from memory' },
  restForcePower: { value: 0.5, unit: 'power', sourceId: 'ROHMERT_1973', note: 'from memory' },
} as const satisfies Readonly<Record<string, Constant>>;
