import type { SailFile } from '../../lib/sail/index.ts';
import { STITCH_RATES } from '../../lib/stock/index.ts';
import { choice, field, type EntryField, type FieldOption } from '../entry-forms/index.ts';

const option = (value: string, text: string): FieldOption => ({ value, text });
const NOT_SAID = option('', 'not said');
const metres = { unit: 'm' };
const under = (section: string, of: EntryField): EntryField => ({ ...of, section });

/** Begins the name of the input with the state of a batten, by its number from the head. */
const BATTEN_NAME = 'batten.';
/** Battens a sail may have. */
const MOST_BATTENS = 12;

/** A sail by its counts; `battenFields` has the states of its battens. */
export const SAIL_FIELDS: readonly EntryField[] = [
  under('What it is', field(['name'], 'Name', { kind: 'line', hint: 'As you call it.' })),
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
  choice(
    ['cloth'],
    'Cloth',
    [NOT_SAID, ...STITCH_RATES.map(({ cloth, name }) => option(cloth, name))],
    'The hours of sewing go by it; not said: the slowest.',
  ),
  under(
    'Sides, as far as known',
    field(['luffM'], 'Luff', { ...metres, hint: 'Without any side the drawing is not to scale.' }),
  ),
  field(['footM'], 'Foot', metres),
  field(['leechM'], 'Leech', { ...metres, hint: 'Straight from head to clew; empty: a usual one.' }),
  field(['roachRatio'], 'Roach', {
    unit: 'of the leech',
    hint: 'At its widest beyond the straight leech, 0.08 for 8 in 100; empty: a usual one.',
  }),
  under('Battens, counted from the head', field(['battens', 'count'], 'Battens', { hint: 'Batten 1 is the top one.' })),
  choice(['battens', 'kind'], 'They reach', [
    option('', 'default: from luff to leech'),
    option('full', 'from luff to leech'),
    option('short', 'near the leech only'),
  ]),
  field(['battens', 'lengthM'], 'Length of short ones', { ...metres, hint: 'Empty: a quarter of the chord.' }),
  field(['battens', 'leechHeightsM'], 'Heights of battens', {
    ...metres,
    kind: 'figures',
    hint: 'From the clew along the leech, the top one first, parted by commas; empty: equal spacing.',
  }),
  under('Reefs, counted from the foot', field(['reefs', 'count'], 'Reefs', { hint: 'Reef 1 is the lowest.' })),
  field(['reefs', 'set'], 'Reef that is in now', { hint: 'Empty or 0: none.' }),
  field(['reefs', 'luffHeightsM'], 'Heights of reefs', {
    ...metres,
    kind: 'figures',
    hint: 'From the tack along the luff, the lowest first, parted by commas; empty: usual shares.',
  }),
  under(
    'Gores of a radial sail',
    field(['gores', 'tack'], 'From the tack', { hint: 'All three, or none: thirds are taken.' }),
  ),
  field(['gores', 'clew'], 'From the clew'),
  field(['gores', 'head'], 'From the head'),
];

/** States of battens by number from the head, for as many as the form says there are, or has a state for. */
export function battenFields(texts: ReadonlyMap<string, string>): readonly EntryField[] {
  const countText = (texts.get('battens.count') ?? '').trim();
  const count = /^\d{1,2}$/.test(countText) ? Math.min(MOST_BATTENS, Number(countText)) : 0;
  const said = [...texts].flatMap(([name, state]) => {
    const number = battenNumber(name);
    return number === null || state === '' ? [] : [number];
  });
  return Array.from({ length: Math.max(count, ...said) }, (_, index) => {
    const place = said.indexOf(index + 1);
    return field(['battens', 'states', place < 0 ? 'none' : place], `Batten ${index + 1}`, {
      name: `${BATTEN_NAME}${index + 1}`,
      kind: 'choice',
      options: BATTEN_STATES,
      section: index === 0 ? 'State of each batten' : '',
      hint: index === 0 ? 'The top one.' : '',
    });
  });
}

/** Number of the batten an input is about; null: it is about something else. */
export function battenNumber(name: string): number | null {
  const [, number] = /^batten\.(\d{1,2})$/.exec(name) ?? [];
  return number === undefined ? null : Number(number);
}

/** What the inputs of battens show. */
export const battenTexts = (sail: SailFile): ReadonlyMap<string, string> => {
  const count = sail.battens?.count ?? 0;
  const states = new Map(
    (sail.battens?.states ?? []).map(({ batten, from, state }) => [
      from === 'foot' ? count + 1 - batten : batten,
      state,
    ]),
  );
  return new Map(
    Array.from({ length: count }, (_, index) => [`${BATTEN_NAME}${index + 1}`, states.get(index + 1) ?? '']),
  );
};

/** A tear, found by counting. */
export const TEAR_FIELDS: readonly EntryField[] = [
  under(
    'Where it is: count panels or battens',
    field(['counted', 'panel'], 'Panel', { hint: 'Its number in the count.' }),
  ),
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
  field(['belowReef'], 'Seen to lie below reef', { hint: 'All of it; reef 1 is the lowest. Empty: not looked.' }),
  under(
    'How far along: one measure to its middle, or none',
    field(['distanceFromLeechM'], 'From the leech', {
      ...metres,
      hint: 'Without a measure it may lie anywhere along the panel, and the worse is taken.',
    }),
  ),
  field(['distanceFromLuffM'], 'From the luff', metres),
  field(['distanceFromFootM'], 'From the foot', metres),
  field(['distanceFromCornerM'], 'From its corner, along a gore', metres),
  field(['chordShare'], 'Share of the way', { hint: '0 at the luff, 0.5 in the middle, 1 at the leech.' }),
  under('How long, and which way', field(['lengthM'], 'Length', metres)),
  field(['widthM'], 'Gapes', { ...metres, hint: 'Empty: 0.02 m (default).' }),
  choice(['direction'], 'Direction', [
    option('', 'not said: taken across the load, the worse'),
    option('across-the-load', 'across the load'),
    option('along-the-load', 'along the load'),
    option('along-the-seam', 'along the seam'),
    option('across-the-seam', 'across the seam'),
    option('fore-and-aft', 'fore and aft'),
    option('up-and-down', 'up and down'),
  ]),
  field(['angleFromFootDeg'], 'Angle to the foot', {
    unit: '°',
    hint: 'Instead of a direction; aft end up positive.',
  }),
  field(['id'], 'Name', { kind: 'line', hint: 'Letters, digits, - and _. Its jobs are called by it.' }),
];

const BATTEN_STATES: readonly FieldOption[] = [
  option('', 'whole'),
  option('cracked', 'cracked'),
  option('joined', 'joined'),
  option('missing', 'missing'),
];
