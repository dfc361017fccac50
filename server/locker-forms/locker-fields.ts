import { choice, field, type EntryField } from '../entry-forms/index.ts';

const option = (value: string, text: string): { value: string; text: string } => ({ value, text });

/** One line of the locker. */
export const ITEM_FIELDS: readonly EntryField[] = [
  field(['item'], 'Item', { kind: 'line' }),
  choice(['kind'], 'Kind', [
    option('', 'default: material, is used up'),
    option('tool', 'tool, comes back'),
    option('bar', 'bar: batten, tube or rod to cut'),
  ]),
  field(['onBoard'], 'On board'),
  field(['unit'], 'Unit', { kind: 'line', hint: 'm, ml, pieces … bars: pieces.' }),
  field(['keep'], 'Reserve', { hint: 'Never to go below; empty: none.' }),
  field(['place'], 'Where it is stowed', { kind: 'line' }),
  field(['lengthMm'], 'Length of one bar', { unit: 'mm' }),
  field(['diameterMm'], 'Thickness of the bar', { unit: 'mm' }),
  field(['readyUtc'], 'Not to be used before', {
    kind: 'line',
    hint: 'UTC, such as 2026-05-28T06:00Z; empty: at once.',
  }),
];

/** One kind of piece to cut. */
export const PIECE_FIELDS: readonly EntryField[] = [
  field(['id'], 'Piece', { kind: 'line' }),
  field(['lengthMm'], 'Length, finished', { unit: 'mm' }),
  field(['diameterMm'], 'Thickness', { unit: 'mm', hint: 'That of a bar in the locker.' }),
  field(['count'], 'How many', { hint: 'Empty: 1.' }),
  field(['priority'], 'Priority', { hint: '1 … 9, more is more important; empty: 5.' }),
  field(['maxJoins'], 'Joins allowed', { hint: 'In one piece; empty: none.' }),
  field(['overlapMm'], 'Overlap of a join', { unit: 'mm', hint: 'Empty: 20 times the thickness.' }),
  field(['endAllowanceMm'], 'Cut longer by', {
    unit: 'mm',
    hint: 'Left on at the far end, to fit and trim; empty: 0.',
  }),
  field(['shortestPartMm'], 'Shortest part', { unit: 'mm', hint: 'Of a joined piece; empty: two overlaps.' }),
  field(['noJoinZonesMm'], 'No join in', {
    unit: 'mm',
    kind: 'spans',
    hint: 'Spans from the first end, such as 0-700, 1500-2400; a join may touch an edge.',
  }),
];
