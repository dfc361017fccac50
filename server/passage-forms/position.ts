import { formatPosition, parsePosition, type Position } from '../../lib/geo/index.ts';
import { ok, type Problem } from '../../lib/result/index.ts';

/** Hundredths of a minute: 18 m. What is not touched keeps every digit it was written with. */
const MINUTE_DIGITS = 2;

export const shownPosition = (at: Position): string => formatPosition(at, MINUTE_DIGITS);

export const POSITION_HINT = "Latitude, then longitude: 36°18.0'S 178°06.0'E, or signed degrees: -36.3, 178.1.";

interface ReadPosition {
  readonly at: Position;
  readonly problems: readonly Problem[];
}

const NOWHERE: Position = { lat: 0, lon: 0 };

/**
 * The position of an input.
 *
 * @param before what it showed; null: nothing
 * @returns with problems at `where`: then the position is only there for the rest to be checked with
 */
export function positionIn(text: unknown, before: Position | null, where: string): ReadPosition {
  if (text === undefined || text === '') return { at: NOWHERE, problems: [missingAt(where)] };
  // The two figures alone: what else stands beside them is entered elsewhere in the form.
  const { lat, lon } = before ?? NOWHERE;
  const isSame = before !== null && text === shownPosition(before);
  const read = isSame ? ok({ lat, lon }) : parsePosition(typeof text === 'string' ? text : '', where);
  return read.ok ? { at: read.value, problems: [] } : { at: { lat, lon }, problems: read.problems };
}

const missingAt = (where: string): Problem => ({
  code: 'passage.missing',
  where,
  what: 'It is missing.',
  expected: "a position such as 36°18.0'S 178°06.0'E",
  remedy: 'Add it.',
});
