import type { Boat, SailState, SpeedRow } from './boat.ts';
import { speedInTable } from './speed-table.ts';

/** Speed over sail area: the exponent of the area ratio by true wind [kn]. Common practice, no source. */
const AREA_EXPONENTS = { below10Ratio: 0.5, to16Ratio: 0.33, aboveRatio: 0.2 } as const;

/** The sail state of a boat; throws for an id it does not have (references are checked when a passage is read). */
export function sailState(boat: Boat, sailStateId: string): SailState {
  const found = boat.sailStates.find((state) => state.id === sailStateId);
  if (found === undefined) throw new Error(`${boat.name} has no sail state "${sailStateId}"`);
  return found;
}

/** True when the state has no speed table and its speeds are estimated from sail area. */
export function isSpeedEstimated(boat: Boat, sailStateId: string): boolean {
  return boat.speedTables[sailStateId] === undefined;
}

/**
 * Boat speed through the water [kn] in a sail state.
 *
 * From the state's own table, or, where it has none, from the table of the fullest state that has one × (area
 * ratio)^n with n = 0.5 below 10 kn of true wind, 0.33 to 16 kn, 0.2 above (see {@link isSpeedEstimated}).
 *
 * @param wind true wind on either tack; angles closer than the table's first take the first: ask `sailCourse` for a
 *   course the boat cannot lay
 */
export function boatSpeedKn(
  boat: Boat,
  sailStateId: string,
  wind: { readonly twaDeg: number; readonly twsKn: number },
): number {
  return boatSpeedIn(boat, sailStateId)(wind.twaDeg, wind.twsKn);
}

/** {@link boatSpeedKn} of one sail state, for asking many times: by true wind angle [degrees] and true wind [kn]. */
export function boatSpeedIn(boat: Boat, sailStateId: string): (twaDeg: number, twsKn: number) => number {
  const own = boat.speedTables[sailStateId];
  if (own !== undefined) return speedInTable(own);
  const full = fullestTable(boat);
  const ratio = sailState(boat, sailStateId).areaRatio / full.areaRatio;
  const fullSpeedKn = speedInTable(full.rows);
  return (twaDeg, twsKn) => fullSpeedKn(twaDeg, twsKn) * ratio ** areaExponentRatio(twsKn);
}

function areaExponentRatio(twsKn: number): number {
  if (twsKn < 10) return AREA_EXPONENTS.below10Ratio;
  return twsKn <= 16 ? AREA_EXPONENTS.to16Ratio : AREA_EXPONENTS.aboveRatio;
}

function fullestTable(boat: Boat): { rows: readonly SpeedRow[]; areaRatio: number } {
  let best: { rows: readonly SpeedRow[]; areaRatio: number } | null = null;
  for (const state of boat.sailStates) {
    const rows = boat.speedTables[state.id];
    if (rows === undefined || (best !== null && best.areaRatio >= state.areaRatio)) continue;
    best = { rows, areaRatio: state.areaRatio };
  }
  if (best === null) throw new Error(`${boat.name} has no speed table`);
  return best;
}
