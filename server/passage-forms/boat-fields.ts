import type { Boat } from '../../lib/boat/index.ts';
import { choice, type EntryField, field } from '../entry-forms/index.ts';

const under = (section: string, of: EntryField): EntryField => ({ ...of, section });
const inKn = { unit: 'kn' };
const inM = { unit: 'm' };

/** The boat herself. */
export const BOAT_FIELDS: readonly EntryField[] = [
  field(['name'], 'Name', { kind: 'line' }),
  field(['instrumentHeightM'], 'Height of the wind instrument above the water', {
    ...inM,
    hint: 'What it reads is brought down from there to 10 m and to the deck.',
  }),
];

/** A handling; `isNew`: its id is asked too. */
export const handlingFields = ({ sailStates }: Pick<Boat, 'sailStates'>, isNew: boolean): readonly EntryField[] => [
  ...(isNew ? [field(['id'], 'Short name, for the jobs', { kind: 'line', hint: 'It is not changed later.' })] : []),
  field(['name'], 'Name', { kind: 'line' }),
  field(['sailStates'], 'Under which sail', {
    kind: 'figures',
    hint: `Parted by commas: ${sailStates.map(({ id }) => id).join(', ')}.`,
  }),
  under(
    'Heading and speed',
    choice(['heading'], 'Along the track', [
      { value: '', text: 'no, or as the default has it' },
      { value: 'course', text: 'yes, in the place of an angle to the wind' },
    ]),
  ),
  field(['twaDeg'], 'Angle to the true wind', { unit: '°', hint: '0 head to wind, 180 dead before it.' }),
  field(['speedRatio'], 'Share of the speed of the table', { hint: '0.35: a third of it.' }),
  field(['speedLeastKn'], 'Speed at least', { ...inKn, hint: 'Above 0 only where an engine drives.' }),
  field(['speedMostKn'], 'Speed at most', inKn),
  field(['driftRatio'], 'Drift to leeward', { hint: 'Share of the wind at 10 m: 0.04 is 0.8 kn in 20 kn.' }),
  field(['settleMin'], 'Time to settle before the work', { unit: 'min' }),
  under('Limits: true wind at 10 m', field(['limits', 'trueWindKn', 'ideal'], 'Wind, ideal up to', inKn)),
  field(['limits', 'trueWindKn', 'caution'], 'Wind, with caution up to', inKn),
  field(['limits', 'trueWindKn', 'noGo'], 'Wind, no-go above', inKn),
  under('Limits: sea', field(['limits', 'seaHeightM', 'ideal'], 'Sea, ideal up to', inM)),
  field(['limits', 'seaHeightM', 'caution'], 'Sea, with caution up to', inM),
  field(['limits', 'seaHeightM', 'noGo'], 'Sea, no-go above', { ...inM, hint: 'Significant wave height.' }),
];
