import type { Boat } from '../../lib/boat/index.ts';
import type { PassageFile } from '../../lib/passage/index.ts';
import type { Result } from '../../lib/result/index.ts';
import { choice, type EntryField, entryOf, field } from '../entry-forms/index.ts';
import { shipTimeOf, utcOfShipTime } from '../presenters/ship-time.ts';
import { shipTimeOffsetOf, type Texts, withPart, withProblems } from './part.ts';
import { POSITION_HINT, positionIn, shownPosition } from './position.ts';

/** When, where and under what she starts. */
export const startFields = ({ sailStates }: Pick<Boat, 'sailStates'>): readonly EntryField[] => [
  field(['timeUtc'], 'Departure', { kind: 'instant', hint: 'Ship’s time.' }),
  field(['position'], 'Position', { kind: 'line', hint: POSITION_HINT }),
  choice(
    ['sailState'],
    'What is set',
    [{ value: '', text: 'default' }, ...sailStates.map(({ id, name }) => ({ value: id, text: name }))],
    'At the departure; jobs that take a sail down change it later.',
  ),
];

/** The start as its form shows it. */
export const shownStart = (file: PassageFile): unknown => {
  const { timeUtc, lat, lon, ...others } = file.start;
  return { timeUtc: shipTimeOf(timeUtc, shipTimeOffsetOf(file)), position: shownPosition({ lat, lon }), ...others };
};

/** The passage with the start as its form says. Ship's time by longitude is that of the start as it was before. */
export function withStart(file: PassageFile, texts: Texts): Result<PassageFile> {
  const { start } = file;
  const offsetMin = shipTimeOffsetOf(file);
  const { timeUtc, position, ...others } = entryOf(startFields({ sailStates: [] }), shownStart(file), texts);
  const isSameTime = timeUtc === shipTimeOf(start.timeUtc, offsetMin);
  const { at, problems } = positionIn(position, start, 'passage, start.position');
  const time =
    typeof timeUtc === 'string' ? { timeUtc: isSameTime ? start.timeUtc : utcOfShipTime(timeUtc, offsetMin) } : {};
  return withProblems(problems, 'start', withPart(file, 'start', { ...time, ...at, ...others }));
}
