/** The order of the packets of a tile (B.12). With one component the orders by component fall together. */
import type { Precinct, TileStructure } from './tile-structure.ts';

/** The packet of one precinct and one layer. */
export interface PacketPlan {
  readonly precinct: Precinct;
  readonly layerIndex: number;
}

/** Table A.16. */
const LAYER_RESOLUTION = 0;
const RESOLUTION_LAYER = 1;
const RESOLUTION_POSITION = 2;

/** All packets of a tile in their order. */
export function* packetsInOrder(
  { levels }: TileStructure,
  packets: { readonly progressionCode: number; readonly layerCount: number },
): Generator<PacketPlan> {
  const { progressionCode, layerCount } = packets;
  if (progressionCode === LAYER_RESOLUTION) {
    for (let layerIndex = 0; layerIndex < layerCount; layerIndex++) {
      for (const { precincts } of levels) for (const precinct of precincts) yield { precinct, layerIndex };
    }
  } else if (progressionCode === RESOLUTION_LAYER) {
    for (const { precincts } of levels) {
      for (let layerIndex = 0; layerIndex < layerCount; layerIndex++) {
        for (const precinct of precincts) yield { precinct, layerIndex };
      }
    }
  } else {
    const all = levels.flatMap(({ precincts }) => precincts);
    // Within a level precincts stand row by row, which is their order by position.
    if (progressionCode !== RESOLUTION_POSITION) all.sort(byPosition);
    for (const precinct of all) {
      for (let layerIndex = 0; layerIndex < layerCount; layerIndex++) yield { precinct, layerIndex };
    }
  }
}

/** Row, then column; the sort is stable, so that the coarser level comes first at the same place. */
const byPosition = (one: Precinct, other: Precinct): number =>
  one.rowIndex - other.rowIndex || one.columnIndex - other.columnIndex;
