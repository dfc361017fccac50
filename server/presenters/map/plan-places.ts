import { type Position, unwrapLon } from '../../../lib/geo/index.ts';
import type { Plan, PlanEntry } from '../../../lib/planner/index.ts';
import { epochOf } from '../time-texts.ts';

/** A place of the plan at an instant. */
export interface TimedPlace extends Position {
  readonly atEpochMs: number;
}

/** Where the plan says the boat will be, in order of time; longitudes run on over the date line. */
export function planPlaces({ entries }: Pick<Plan, 'entries'>): readonly TimedPlace[] {
  const places: TimedPlace[] = [];
  for (const { startUtc, lat, lon } of entries) {
    const last = places.at(-1);
    places.push({ atEpochMs: epochOf(startUtc), lat, lon: last === undefined ? lon : unwrapLon(lon, last) });
  }
  return places.toSorted((a, b) => a.atEpochMs - b.atEpochMs);
}

/** The way between the start of an entry and its end; past the last place known it stays there. */
export function wayDuring(places: readonly TimedPlace[], entry: PlanEntry): readonly Position[] {
  const [fromEpochMs, toEpochMs] = [epochOf(entry.startUtc), epochOf(entry.endUtc)];
  const between = places.filter(({ atEpochMs }) => fromEpochMs < atEpochMs && atEpochMs < toEpochMs);
  return [placeAt(places, fromEpochMs), ...between, placeAt(places, toEpochMs)].filter((place) => place !== null);
}

/** Between two places straight on the map; before the first and after the last the boat is there. null: no places. */
function placeAt(places: readonly TimedPlace[], epochMs: number): Position | null {
  const before = places.findLast(({ atEpochMs }) => atEpochMs <= epochMs) ?? places[0];
  const after = places.find(({ atEpochMs }) => atEpochMs >= epochMs) ?? places.at(-1);
  if (before === undefined || after === undefined) return null;
  const spanMs = after.atEpochMs - before.atEpochMs;
  const share = spanMs === 0 ? 0 : (epochMs - before.atEpochMs) / spanMs;
  return { lat: before.lat + (after.lat - before.lat) * share, lon: before.lon + (after.lon - before.lon) * share };
}
