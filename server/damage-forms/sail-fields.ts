import { STITCH_RATES } from '../../lib/stock/index.ts';
import { choice, field, type EntryField, type FieldOption } from '../entry-forms/index.ts';

const option = (value: string, text: string): FieldOption => ({ value, text });
const NOT_SAID = option('', 'not said');
const metres = { unit: 'm' };

/** A sail by its counts; `battenCount` says for how many a state can be given. */
export const SAIL_FIELDS: readonly EntryField[] = [
  field(['name'], 'Name', { kind: 'line' }),
  choice(['kind'], 'Kind', [
    option('mainsail', 'mainsail'),
    option('headsail', 'headsail'),
    option('staysail', 'staysail'),
    option('trysail', 'trysail'),
  ]),
  choice(['cut'], 'Cut', [
    option('cross-cut', 'cross-cut: panels across'),
    option('radial', 'radial: gores from the corners'),
  ]),
  field(['panelCount'], 'Panels', { hint: 'Counted along the leech from the clew; of a radial sail all gores.' }),
  field(['luffM'], 'Luff', { ...metres, hint: 'Without luff and foot the drawing is not to scale.' }),
  field(['footM'], 'Foot', metres),
  field(['leechM'], 'Leech', { ...metres, hint: 'Straight from head to clew; empty: a usual one.' }),
  choice(['cloth'], 'Cloth', [NOT_SAID, ...STITCH_RATES.map(({ cloth, name }) => option(cloth, name))]),
  field(['battens', 'count'], 'Battens', { hint: 'Batten 1 is the top one.' }),
  choice(['battens', 'kind'], 'Length of battens', [
    option('', 'default: full'),
    option('full', 'full, luff to leech'),
    option('short', 'short, at the leech'),
  ]),
  field(['battens', 'leechHeightsM'], 'Heights of battens', {
    ...metres,
    kind: 'figures',
    hint: 'From the clew along the leech, the top one first, parted by commas; empty: equal spacing.',
  }),
  field(['reefs', 'count'], 'Reefs', { hint: 'Reef 1 is the lowest.' }),
  field(['reefs', 'luffHeightsM'], 'Heights of reefs', {
    ...metres,
    kind: 'figures',
    hint: 'From the tack along the luff, the lowest first, parted by commas; empty: usual shares.',
  }),
  field(['reefs', 'set'], 'Reef that is in now', { hint: 'Empty or 0: none.' }),
];

/** A tear, found by counting. */
export const TEAR_FIELDS: readonly EntryField[] = [
  field(['id'], 'Name', { kind: 'line', hint: 'Letters, digits, - and _.' }),
  field(['lengthM'], 'Length', metres),
  field(['widthM'], 'Gapes', { ...metres, hint: 'Empty: 0.02 m.' }),
  field(['counted', 'panel'], 'Panel'),
  choice(['counted', 'from'], 'Counted from', [
    option('', 'default: clew, of a radial sail tack'),
    option('clew', 'clew'),
    option('tack', 'tack'),
    option('head', 'head'),
  ]),
  choice(['counted', 'seam'], 'On a seam', [
    option('', 'no'),
    option('next', 'to the next panel of the count'),
    option('before', 'to the panel before'),
  ]),
  field(['betweenBattens'], 'Between battens', {
    kind: 'pair',
    hint: 'Such as 3-4, head-1 or 5-foot; instead of a panel, or beside it as a check.',
  }),
  field(['belowReef'], 'Seen to lie below reef'),
  field(['distanceFromLeechM'], 'From the leech', { ...metres, hint: 'One measure is enough.' }),
  field(['distanceFromLuffM'], 'From the luff', metres),
  field(['distanceFromFootM'], 'From the foot', metres),
  field(['distanceFromCornerM'], 'From its corner, along a gore', metres),
  choice(['direction'], 'Direction', [
    option('', 'not said: taken across the load'),
    option('across-the-load', 'across the load'),
    option('along-the-load', 'along the load'),
    option('along-the-seam', 'along the seam'),
    option('across-the-seam', 'across the seam'),
    option('fore-and-aft', 'fore and aft'),
    option('up-and-down', 'up and down'),
  ]),
];

export const BATTEN_STATES: readonly FieldOption[] = [
  option('', 'whole'),
  option('cracked', 'cracked'),
  option('joined', 'joined'),
  option('missing', 'missing'),
];
