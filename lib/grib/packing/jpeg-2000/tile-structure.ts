/** From a tile down to its code-blocks: resolution levels, sub-bands, precincts (B.5 to B.7). */
import type { StreamFault } from '../stream-fault.ts';
import { type Area, type CellGrid, cellArea, cellsOver, columnsOf, type Extent, mapEdges, rowsOf } from './area.ts';
import type { Orientation } from './context-tables.ts';
import { faultAt } from './faults.ts';
import type { TileCoding } from './parameters.ts';
import { stepOfBand } from './quantization.ts';
import { TagTree } from './tag-tree.ts';

/** A sub-band of a tile. */
export interface SubBand {
  readonly orientation: Orientation;
  readonly area: Area;
  /** Where its first coefficient stands in the plane of the tile: low-pass left and above, high-pass right and below. */
  readonly planeColumnIndex: number;
  readonly planeRowIndex: number;
  /** Mb, equation E-2: magnitude bit-planes, the empty ones included. */
  readonly planeBits: number;
  /** Δb, equation E-3; 1 when nothing was quantized. */
  readonly stepWeight: number;
}

/** The code-blocks of one sub-band that belong to one precinct. */
export interface PrecinctBand {
  readonly band: SubBand;
  readonly area: Area;
  readonly blocks: CellGrid;
  /** Number of its first code-block among those of the tile. */
  readonly firstBlockIndex: number;
  readonly inclusion: TagTree;
  readonly emptyPlanes: TagTree;
}

/** One precinct: what a packet of each layer speaks of. */
export interface Precinct {
  /** Its corner on the reference grid, where the orders by position look for it. */
  readonly columnIndex: number;
  readonly rowIndex: number;
  readonly bands: readonly PrecinctBand[];
}

export interface ResolutionLevel {
  readonly area: Area;
  /** Row by row. */
  readonly precincts: readonly Precinct[];
}

export interface TileStructure {
  readonly area: Area;
  /** Coarsest first. */
  readonly levels: readonly ResolutionLevel[];
  readonly blockCount: number;
}

interface TileSource {
  readonly area: Area;
  readonly coding: TileCoding;
  readonly depthBits: number;
  readonly markerIndex: number;
  /** Packets that fit into the octets of the tile, one octet each. */
  readonly mostPacketsCount: number;
}

/** More precincts in a tile than this are refused: a file of forecasts has some hundred. */
const MOST_PRECINCTS = 131_072;

/** Lays out a tile. Refuses one whose packets cannot all be there. */
export function layOutTile(source: TileSource): TileStructure | StreamFault {
  const { coding, markerIndex } = source;
  const plans = Array.from({ length: coding.component.levelCount + 1 }, (_, level) => planLevel(source, level));
  const precinctCount = plans.reduce((sum, { grid }) => sum + grid.columnCount * grid.rowCount, 0);
  const mostCount = Math.min(MOST_PRECINCTS, Math.floor(source.mostPacketsCount / coding.packets.layerCount));
  if (precinctCount > mostCount) {
    const what = `The tile has ${precinctCount} precincts in ${coding.packets.layerCount} layers.`;
    return faultAt(markerIndex, what, `at most ${mostCount} precincts, as many as its octets can hold`);
  }
  const counter = { blockCount: 0 };
  const levels: ResolutionLevel[] = [];
  for (const plan of plans) {
    const bands = bandsOf(source, plan);
    if ('what' in bands) return bands;
    levels.push(layOutLevel(source, { ...plan, bands }, counter));
  }
  return { area: source.area, levels, blockCount: counter.blockCount };
}

interface LevelPlan {
  readonly levelIndex: number;
  readonly area: Area;
  /** Precincts. */
  readonly grid: CellGrid;
}

/** Equations B-14 and B-16. */
function planLevel({ area, coding }: TileSource, levelIndex: number): LevelPlan {
  const scale = 2 ** (coding.component.levelCount - levelIndex);
  const levelArea = mapEdges(area, (edge) => Math.ceil(edge / scale));
  const precinct = coding.component.precincts[levelIndex] ?? { columnCount: 1, rowCount: 1 };
  return { levelIndex, area: levelArea, grid: cellsOver(levelArea, precinct) };
}

/** Orientation, and whether its columns and rows are high-pass: table B.1. */
const BANDS_ABOVE = [
  { orientation: 'HL', columnIndex: 1, rowIndex: 0, gainBits: 1 },
  { orientation: 'LH', columnIndex: 0, rowIndex: 1, gainBits: 1 },
  { orientation: 'HH', columnIndex: 1, rowIndex: 1, gainBits: 2 },
] as const;
const COARSEST_BANDS = [{ orientation: 'LL', columnIndex: 0, rowIndex: 0, gainBits: 0 }] as const;

/** Equation B-15 for the areas, E-2 to E-4 for the bit-planes and steps. */
function bandsOf(source: TileSource, { levelIndex }: LevelPlan): readonly SubBand[] | StreamFault {
  const { area, coding, depthBits } = source;
  const { levelCount } = coding.component;
  const levelNumber = levelIndex === 0 ? levelCount : levelCount - levelIndex + 1;
  const scale = 2 ** levelNumber;
  const low = mapEdges(area, (edge) => Math.ceil(edge / scale));
  const bands: SubBand[] = [];
  for (const [order, shape] of (levelIndex === 0 ? COARSEST_BANDS : BANDS_ABOVE).entries()) {
    const bandIndex = levelIndex === 0 ? 0 : 3 * levelIndex - 2 + order;
    const step = stepOfBand(coding.quantization, { bandIndex, levelNumber }, levelCount);
    if (step === null) return faultAt(source.markerIndex, `Sub-band ${bandIndex} has no step.`, 'a step in QCD or QCC');
    const edges = (highIndex: 0 | 1) => (edgeIndex: number) => Math.ceil((edgeIndex - highIndex * (scale / 2)) / scale);
    bands.push({
      orientation: shape.orientation,
      area: mapEdges(area, edges(shape.columnIndex), edges(shape.rowIndex)),
      planeColumnIndex: shape.columnIndex * columnsOf(low),
      planeRowIndex: shape.rowIndex * rowsOf(low),
      planeBits: coding.quantization.guardBits + step.exponentNumber - 1,
      stepWeight: coding.component.isReversible
        ? 1
        : 2 ** (depthBits + shape.gainBits - step.exponentNumber) * (1 + step.mantissaNumber / 2048),
    });
  }
  return bands;
}

function layOutLevel(
  source: TileSource,
  plan: LevelPlan & { readonly bands: readonly SubBand[] },
  counter: { blockCount: number },
): ResolutionLevel {
  const { component } = source.coding;
  const { levelIndex, grid, bands } = plan;
  const scale = 2 ** (component.levelCount - levelIndex);
  // Equation B-17: a precinct covers half its size in the sub-bands above the coarsest level.
  const half = levelIndex === 0 ? 1 : 2;
  const cell = { columnCount: grid.cell.columnCount / half, rowCount: grid.cell.rowCount / half };
  const codeBlock = smaller(component.codeBlock, cell);
  const precincts: Precinct[] = [];
  for (let i = 0; i < grid.columnCount * grid.rowCount; i++) {
    const column = grid.firstColumnIndex + (i % grid.columnCount);
    const row = grid.firstRowIndex + Math.floor(i / grid.columnCount);
    precincts.push({
      columnIndex: Math.max(source.area.fromColumnIndex, column * grid.cell.columnCount * scale),
      rowIndex: Math.max(source.area.fromRowIndex, row * grid.cell.rowCount * scale),
      bands: bands.map((band) =>
        // Precincts have the same numbers in a sub-band as in its level.
        layOutBand(band, { area: cellArea(band.area, { ...grid, cell }, i), codeBlock, counter }),
      ),
    });
  }
  return { area: plan.area, precincts };
}

function layOutBand(
  band: SubBand,
  part: { readonly area: Area; readonly codeBlock: Extent; readonly counter: { blockCount: number } },
): PrecinctBand {
  const blocks = cellsOver(part.area, part.codeBlock);
  const firstBlockIndex = part.counter.blockCount;
  part.counter.blockCount += blocks.columnCount * blocks.rowCount;
  return {
    band,
    area: part.area,
    blocks,
    firstBlockIndex,
    inclusion: new TagTree(blocks),
    emptyPlanes: new TagTree(blocks),
  };
}

const smaller = (one: Extent, other: Extent): Extent => ({
  columnCount: Math.min(one.columnCount, other.columnCount),
  rowCount: Math.min(one.rowCount, other.rowCount),
});
