/**
 * Land of the sample area, as the wave model of the demo sees it: the north-east of New Zealand in two coarse outlines.
 *
 * Drawn by us from memory, good to some 10 nm; only for leaving out waves and sea temperature. Not for navigation.
 */
type Corner = readonly [lat: number, lon: number];

const NORTH_ISLAND: readonly Corner[] = [
  [-34.4, 172.7],
  [-34.4, 173.05],
  [-34.9, 173.5],
  [-35.2, 174.2],
  [-35.85, 174.5],
  [-36.8, 175],
  [-36.5, 175.4],
  [-36.9, 175.9],
  [-37.6, 176.2],
  [-37.95, 177],
  [-38, 177.3],
  [-37.55, 178],
  [-37.7, 178.55],
  [-38.7, 178],
  [-39.2, 177.9],
  [-39.3, 177],
  [-39.65, 177.1],
  [-40.5, 176.6],
  [-40.9, 176.2],
  [-41.6, 175.3],
  [-41.35, 174.7],
  [-40.8, 175],
  [-39.95, 175],
  [-39.3, 173.75],
  [-39, 174.1],
  [-38.1, 174.7],
  [-37, 174.5],
  [-36.4, 174.1],
  [-35.5, 173.4],
  [-34.9, 173.1],
];

/** Only its north; it reaches beyond the area. */
const SOUTH_ISLAND: readonly Corner[] = [
  [-40.5, 172.7],
  [-40.5, 173],
  [-41.3, 173.2],
  [-40.9, 174],
  [-41.2, 174.3],
  [-41.7, 174.3],
  [-42.4, 173.7],
  [-43.2, 172.8],
  [-43.6, 173.1],
  [-43.9, 172.5],
  [-44.5, 171.3],
  [-44.5, 169],
  [-43, 170.3],
  [-42.4, 171.1],
  [-41.7, 171.5],
  [-41, 172.1],
];

/** Whether a point of the area lies on land; longitude in [-180, 180). */
export const isLand = (point: { readonly lat: number; readonly lon: number }): boolean =>
  [NORTH_ISLAND, SOUTH_ISLAND].some((outline) => isInside(outline, point));

/** Counts the sides that the parallel of the point crosses east of it. */
function isInside(outline: readonly Corner[], { lat, lon }: { readonly lat: number; readonly lon: number }): boolean {
  let isOdd = false;
  for (const [i, [lat1, lon1]] of outline.entries()) {
    const [lat2, lon2] = outline[(i + 1) % outline.length] ?? [lat1, lon1];
    const crosses = lat1 > lat !== lat2 > lat;
    if (crosses && lon < lon1 + ((lat - lat1) / (lat2 - lat1)) * (lon2 - lon1)) isOdd = !isOdd;
  }
  return isOdd;
}
