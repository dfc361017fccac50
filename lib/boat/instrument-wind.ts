import type { Boat, Handling } from './boat.ts';
import { trueWindForDeckKn, windOnBoard } from './deck-wind.ts';
import { handle } from './handle.ts';

/** Speed and true wind are found by turns; a hundredth of a knot is reached long before. */
const MOST_ROUND_COUNT = 20;
/** Where the search begins: about what of the 10 m wind reaches the deck. */
const FIRST_RATIO = 0.84;

/**
 * Wind speed [kn] that the instrument shows when the deck feels so much under a handling.
 *
 * The true wind is looked for that brings the deck wind at `deckHeightM`; the same wind is then felt at the boat's
 * `instrumentHeightM`. No current; a handling that holds the course is taken head to wind, or as close as the sail
 * state sails.
 */
export function instrumentWindKn(
  boat: Boat,
  handling: Handling,
  felt: { readonly deckWindKn: number; readonly deckHeightM: number; readonly sailStateId: string },
): number {
  const { deckWindKn, deckHeightM, sailStateId } = felt;
  const wind = { windFromDegTrue: 0, courseTowardDegTrue: 0 };
  let twsKn = deckWindKn / FIRST_RATIO;
  for (let round = 0; round < MOST_ROUND_COUNT; round++) {
    const { twaDeg, boatSpeedKn } = handle(boat, handling, { ...wind, twsKn, sailStateId });
    const found = trueWindForDeckKn({ deckWindKn, twaDeg, boatSpeedKn, heightM: deckHeightM });
    if (found === null) break;
    twsKn = found;
  }
  const { velocity } = handle(boat, handling, { ...wind, twsKn, sailStateId });
  return windOnBoard({ windKn: twsKn, windFromDegTrue: 0 }, { heightM: boat.instrumentHeightM, velocity }).windKn;
}

/**
 * Wind speed [kn] felt at a height in so much true wind at 10 m under a handling: no current; a handling that holds the
 * course is taken head to wind, or as close as the sail state sails.
 */
export function feltWindKn(
  boat: Boat,
  handling: Handling,
  blowing: { readonly trueWindKn: number; readonly heightM: number; readonly sailStateId: string },
): number {
  const { trueWindKn, heightM, sailStateId } = blowing;
  const wind = { windFromDegTrue: 0, courseTowardDegTrue: 0, twsKn: trueWindKn };
  const { velocity } = handle(boat, handling, { ...wind, sailStateId });
  return windOnBoard({ windKn: trueWindKn, windFromDegTrue: 0 }, { heightM, velocity }).windKn;
}
