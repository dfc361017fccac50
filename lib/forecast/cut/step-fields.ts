/** One step of a quantity: its fields as they are to be written. */
import type { GribMessageSpec, headerReader, WrittenGrid } from '../../grib/index.ts';
import { failed, ok, type Problem, type Result } from '../../result/index.ts';
import { wrap360Deg } from '../../units/index.ts';
import type { MatchedField } from '../match-field.ts';
import type { Part } from '../quantities.table.ts';
import { quantityOf, type QuantityId } from '../quantity.ts';
import type { CutStep } from './choose-steps.ts';
import type { CutGrid } from './cut-grid.ts';
import { type CutBench, stepValues } from './field-values.ts';
import type { MaskShelf } from './mask-shelf.ts';
import type { PointMask } from './needed-points.ts';
import { errorOfScale, scaleFor } from './precision.ts';
import type { CutPrecision } from './request.ts';
import { writtenHeaders } from './written-field.ts';

/** A field to be written, and which grid of the cut it lies on. */
export interface PlannedField extends StepField {
  readonly gridIndex: number;
}

/** A field to be written. */
export interface StepField {
  readonly quantity: QuantityId;
  readonly memberId: string;
  readonly found: MatchedField;
  readonly spec: GribMessageSpec & { readonly values: Float64Array };
  /** In the order of the values: 1 where a point is needed; null: all are. */
  readonly mask: Float64Array | null;
  /** The same for the same points of one grid. */
  readonly maskIndex: number;
  /** Greatest error of rounding, in the unit of the quantity. */
  readonly greatestError: { readonly value: number };
  readonly isResampled: boolean;
}

/** What planning shares between steps. */
export interface StepBench extends CutBench {
  readonly headersOf: ReturnType<typeof headerReader>;
  readonly masks: MaskShelf;
  readonly precision: CutPrecision;
}

/** The fields of a step, or why it cannot be written: a part is missing or damaged. */
export function stepFields(cutStep: CutStep, grid: CutGrid, bench: StepBench): Result<readonly StepField[]> {
  const { quantity, memberId, step } = cutStep;
  const { fields } = step.chain[0];
  if (!isWhole(fields)) return failed(partMissing(cutStep));
  const values = stepValues(step.chain, grid, bench);
  if (!values.ok) return values;
  const { points, maskIndex } = bench.masks(grid, step);
  const { startEpochMs, endEpochMs } = step;
  const time = { startEpochMs, endEpochMs, isOwn: step.chain.length === 1 };
  return ok(
    fields.map((found) => {
      const source = bench.sourceOf(found);
      const headers = writtenHeaders(found, time, bench.headersOf(source.bytes, source.field));
      const scale = scaleFor(found, bench.precision, headers);
      const decoded = values.value.get(found.row.part) ?? new Float32Array();
      return {
        quantity,
        memberId,
        found,
        spec: {
          ...headers.spec,
          ...scale,
          grid: writtenGrid(grid),
          values: scaled(inFileOrder(decoded, grid), headers.factorRatio),
        },
        mask: points === null ? null : inFileOrder(points, grid),
        maskIndex,
        greatestError: { value: errorOfScale(found, scale, headers) },
        isResampled: grid.resampling !== null,
      };
    }),
  );
}

const scaled = (values: Float64Array, factorRatio: number): Float64Array =>
  factorRatio === 1 ? values : values.map((value) => value * factorRatio);

/** Both components, speed and direction, or the one part there is, on one grid. */
function isWhole(fields: readonly MatchedField[]): boolean {
  const parts = new Set(fields.map(({ row }) => row.part));
  const gridCount = new Set(fields.map(({ field }) => JSON.stringify(field.grid))).size;
  const hasBoth = (a: Part, b: Part): boolean => parts.has(a) === parts.has(b);
  const isDirectionAlone = fields.every(({ row }) => row.quantity === 'waveDirection');
  return gridCount === 1 && hasBoth('u', 'v') && (hasBoth('speed', 'direction') || isDirectionAlone);
}

function partMissing({ quantity, step }: CutStep): Problem {
  const [found] = step.chain[0].fields;
  return {
    code: 'cut.part-missing',
    where: `${found?.field.fileName ?? 'forecast'}, message ${found?.field.messageNumber ?? 0}`,
    what: `One component of the ${quantityOf(quantity).name} has no partner on the same grid at the same time.`,
    expected: 'both components, or speed and direction',
    remedy: 'This hour is left out. Ask for the forecast again with both components.',
  };
}

const NORTH_FIRST = 0;
const SOUTH_FIRST = 64;

function writtenGrid({ kept, isNorthFirst }: CutGrid): WrittenGrid {
  const { southWest, rowCount, columnCount, latStepDeg, lonStepDeg } = kept;
  const northLat = southWest.lat + (rowCount - 1) * latStepDeg;
  const firstLat = isNorthFirst ? northLat : southWest.lat;
  return {
    ni: columnCount,
    nj: rowCount,
    first: { lat: Math.min(90, Math.max(-90, firstLat)), lon: wrap360Deg(southWest.lon) },
    iIncrementDeg: lonStepDeg,
    jIncrementDeg: latStepDeg,
    scanningMode: isNorthFirst ? NORTH_FIRST : SOUTH_FIRST,
  };
}

/** Rows as the files have them: from the north, or from the south as they are here. */
function inFileOrder(values: Float32Array | PointMask, { kept, isNorthFirst }: CutGrid): Float64Array {
  const { columnCount, rowCount } = kept;
  const ordered = new Float64Array(columnCount * rowCount);
  for (let rowIndex = 0; rowIndex < rowCount; rowIndex++) {
    const toIndex = (isNorthFirst ? rowCount - 1 - rowIndex : rowIndex) * columnCount;
    ordered.set(values.subarray(rowIndex * columnCount, (rowIndex + 1) * columnCount), toIndex);
  }
  return ordered;
}
