import { choice, type EntryField, field, type FieldOption } from '../entry-forms/index.ts';

const option = (value: string, text: string): FieldOption => ({ value, text });
const inMm = { unit: 'mm' };

/** One line of the locker; `readyUtc` is written in ship's time. */
export const ITEM_FIELDS: readonly EntryField[] = [
  field(['item'], 'Item', { kind: 'line', hint: 'By the name the jobs call it.' }),
  choice(['kind'], 'Kind', [
    option('', 'material, is used up (default)'),
    option('tool', 'tool, comes back'),
    option('bar', 'bar: batten, tube or rod to cut'),
  ]),
  field(['onBoard'], 'On board now', { hint: 'What finished work has used is off already.' }),
  field(['unit'], 'Unit', { kind: 'line', hint: 'm, ml, g, pieces … Tools and bars: pieces.' }),
  field(['keep'], 'Reserve, never to go below', { hint: 'In the same unit. Empty: none.' }),
  field(['place'], 'Where it is stowed', { kind: 'line', hint: 'Empty: not said.' }),
  field(['readyUtc'], 'Not to be used before', {
    kind: 'line',
    hint: 'Ship’s time. Empty: it may be used at once.',
  }),
  field(['lengthMm'], 'Length of one bar', { ...inMm, hint: 'Bars only; each length is a line of its own.' }),
  field(['diameterMm'], 'Thickness of one bar', { ...inMm, hint: 'Bars only.' }),
];

/** What a line is known by. */
export const ITEM_KNOWN_BY = ['item', 'lengthMm', 'diameterMm'] as const;

/** One kind of piece to cut. */
export const PIECE_FIELDS: readonly EntryField[] = [
  field(['id'], 'Name of the piece', { kind: 'line' }),
  field(['lengthMm'], 'Length, finished', inMm),
  field(['diameterMm'], 'Thickness', { ...inMm, hint: 'It is cut from bars of this thickness only.' }),
  field(['count'], 'How many', { hint: 'Empty: 1.' }),
  field(['priority'], 'Priority', { hint: '1 when convenient to 9 the passage depends on it. Empty: 5.' }),
  field(['endAllowanceMm'], 'Cut longer by', {
    ...inMm,
    hint: 'Left on at the far end, to fit and trim. Empty: 0.',
  }),
  field(['maxJoins'], 'Joins allowed in one piece', { hint: 'Empty: none.' }),
  field(['overlapMm'], 'Overlap of a join', { ...inMm, hint: 'Empty: 20 times the thickness.' }),
  field(['overlapRatio'], 'Overlap, in thicknesses', {
    hint: 'In place of millimetres: 12 is 12 times the thickness.',
  }),
  field(['shortestPartMm'], 'Shortest part of a joined piece', { ...inMm, hint: 'Empty: two overlaps.' }),
  field(['noJoinZonesMm'], 'No join in', {
    ...inMm,
    kind: 'spans',
    hint: 'From–to from the first end of the finished piece, parted by commas: 0-700, 1500-2400. A join may touch an edge.',
  }),
];

export const PIECE_KNOWN_BY = ['id'] as const;
