import { coastAheadNm, type Coastline, coastNear, greatCircle, type Position } from '../../../lib/geo/index.ts';
import { degreesText } from './map-words.ts';
import { durationText } from '../time-texts.ts';
import type { RunOff } from './sailed-way.ts';

/** Land farther off than this is not told: no job runs so far. */
const LOOK_NM = 500;
/** The wind may come from elsewhere: land is looked for so far to either side, in steps. Our choice, no source. */
const ASIDE_DEG = 20;
const STEP_DEG = 5;
/** Farther than this around a place is as good as everywhere. */
const MOST_NEAR_NM = 5_000;

/**
 * The coast that runs from any of these places may meet; asking it takes a hundredth of the time that asking all coasts does.
 */
export function coastOfRuns(coast: Coastline, places: readonly Position[]): Coastline {
  const [middle] = places;
  if (middle === undefined) return coast;
  const spreadNm = Math.max(...places.map((place) => greatCircle(middle, place).distanceNm));
  const withinNm = spreadNm + LOOK_NM;
  return withinNm < MOST_NEAR_NM ? coastNear(coast, middle, withinNm) : coast;
}

/** A run down the wind, and how much sea there is for it. */
export interface SeaRoom {
  readonly run: RunOff;
  readonly runNm: number;
  /** null: no land within 500 nm. */
  readonly landNm: number | null;
}

/** How far a run goes, and the nearest land within 20 degrees either side of it. */
export function seaRoomOf(coast: Coastline, from: Position, run: RunOff): SeaRoom {
  const bearings = Array.from(
    { length: (2 * ASIDE_DEG) / STEP_DEG + 1 },
    (_, i) => run.towardDegTrue - ASIDE_DEG + i * STEP_DEG,
  );
  const found = bearings.flatMap(
    (towardDegTrue) => coastAheadNm(coast, { from, towardDegTrue, withinNm: LOOK_NM }) ?? [],
  );
  return {
    run,
    runNm: (run.speedKn * run.heldMin) / 60,
    landNm: found.length === 0 ? null : Math.min(...found),
  };
}

/** `toward 079°, 14 nm in 2 h 40 min; no land within 500 nm` */
export function seaRoomText({ run, runNm, landNm }: SeaRoom): string {
  const land = landNm === null ? `no land within ${LOOK_NM} nm` : `land ${landText(landNm)} nm off`;
  return `toward ${degreesText(run.towardDegTrue)}, ${Math.ceil(runNm)} nm in ${durationText(run.heldMin)}; ${land}`;
}

/** Down to the next mile, so that there is never less sea than told. */
const landText = (landNm: number): string => String(Math.floor(landNm));

/** The sentence over the map: the run with the least sea room left. */
export function seaRoomSentence(rooms: readonly (SeaRoom & { readonly name: string })[]): string {
  if (rooms.length === 0) return 'No work runs before the wind, so none needs sea room to leeward.';
  const near = rooms.flatMap((room) => (room.landNm === null ? [] : [{ ...room, landNm: room.landNm }]));
  const [least] = near.toSorted((a, b) => a.landNm - a.runNm - (b.landNm - b.runNm));
  if (least === undefined) return `No land lies within ${LOOK_NM} nm to leeward of any work that runs before the wind.`;
  const where = `${landText(least.landNm)} nm within ${ASIDE_DEG}° of ${degreesText(least.run.towardDegTrue)}`;
  const runs = `and she runs ${Math.ceil(least.runNm)} nm`;
  return least.runNm < least.landNm
    ? `Least sea room: ${least.name}, land ${where}, ${runs}.`
    : `Not enough sea room: ${least.name}, land ${where}, ${runs}. Do it under another handling or elsewhere.`;
}
