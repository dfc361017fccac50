/** Values of the kept part of the fields of one step, from the south-west row by row. */
import { decodePart, type GridFrame } from '../../grib/index.ts';
import { failed, ok, type Problem, type Result } from '../../result/index.ts';
import { uvFromWind, windFromUv } from '../../units/index.ts';
import { bilinearAt, type GridPlaces } from '../grid-places.ts';
import type { FieldSource } from '../forecast-files.ts';
import type { MatchedField } from '../match-field.ts';
import { possibleValue } from '../possible-values.table.ts';
import type { ParameterRow, Part } from '../quantities.table.ts';
import { turnToTrue, type TurnShelf } from '../true-vectors.ts';
import type { CutGrid } from './cut-grid.ts';
import type { Chain, FieldGroup } from './thin-times.ts';

/** What decoding shares between fields. */
export interface CutBench {
  readonly sourceOf: (found: MatchedField) => FieldSource;
  readonly scratch: Float64Array;
  readonly turns: TurnShelf;
}

/** Values by part, in the unit of the message. */
export type PartValues = ReadonlyMap<Part, Float32Array>;

/** Values of a step; what several fields hold in turn becomes one: the highest, the sum, the mean over time. */
export function stepValues(chain: Chain, grid: CutGrid, bench: CutBench): Result<PartValues> {
  const [first, ...rest] = chain.map((group) => groupValues(group, grid, bench));
  if (first === undefined || !first.ok) return first ?? ok(new Map<Part, Float32Array>());
  const joined = new Map(first.value);
  for (const [i, next] of rest.entries()) {
    if (!next.ok) return next;
    const group = chain[i + 1];
    const spans = { beforeMs: (group?.startEpochMs ?? 0) - chain[0].startEpochMs, nextMs: lengthMs(group) };
    for (const { row } of chain[0].fields) {
      const [before, added] = [joined.get(row.part), next.value.get(row.part)];
      if (before !== undefined && added !== undefined) joinInto(before, added, { reading: row.reading, spans });
    }
  }
  return ok(joined);
}

const lengthMs = (group: FieldGroup | undefined): number =>
  group === undefined ? 0 : group.endEpochMs - group.startEpochMs;

function joinInto(
  before: Float32Array,
  next: Float32Array,
  { reading, spans }: { reading: MatchedField['row']['reading']; spans: { beforeMs: number; nextMs: number } },
): void {
  const { beforeMs, nextMs } = spans;
  for (let i = 0; i < before.length; i++) {
    const [a, b] = [before[i] ?? Number.NaN, next[i] ?? Number.NaN];
    before[i] =
      reading === 'sum'
        ? a + b
        : reading === 'maximum'
          ? Math.max(a, b)
          : (a * beforeMs + b * nextMs) / (beforeMs + nextMs);
  }
}

function groupValues(group: FieldGroup, grid: CutGrid, bench: CutBench): Result<PartValues> {
  const values = new Map<Part, Float32Array>();
  const problems: Problem[] = [];
  for (const found of group.fields) {
    const source = bench.sourceOf(found);
    const decoded = decodePart(source.bytes, source.field, { part: grid.part, scratch: bench.scratch });
    if (decoded.ok) values.set(found.row.part, withoutImpossible(found.row, decoded.value));
    else problems.push(...decoded.problems);
  }
  const [first, ...rest] = problems;
  if (first !== undefined) return failed(first, ...rest);
  turnVectors(group, { decoded: grid.decoded, turns: bench.turns }, values);
  return ok(new Map([...values].map(([part, decoded]) => [part, onKeptGrid(part, decoded, grid)])));
}

/** What can be no weather is missing in the cut too; the other values stay in the unit of the message. */
function withoutImpossible(row: ParameterRow, values: Float32Array): Float32Array {
  const possible = possibleValue(row);
  for (let i = 0; i < values.length; i++) if (Number.isNaN(possible(values[i] ?? Number.NaN))) values[i] = Number.NaN;
  return values;
}

/** Components along a map's own columns and rows to true ones: the kept grid's columns are meridians. */
function turnVectors(
  { fields }: FieldGroup,
  { decoded, turns }: { readonly decoded: GridFrame; readonly turns: TurnShelf },
  values: ReadonlyMap<Part, Float32Array>,
): void {
  const [x, y] = [values.get('u'), values.get('v')];
  const isAlongGrid = fields.some(
    ({ field: { grid } }) => 'areVectorsGridRelative' in grid && grid.areVectorsGridRelative,
  );
  if (isAlongGrid && x !== undefined && y !== undefined) turnToTrue(turns, decoded, { x, y });
}

function onKeptGrid(part: Part, decoded: Float32Array, grid: CutGrid): Float32Array {
  const { kept, everyCount, resampling } = grid;
  if (resampling !== null)
    return part === 'direction' ? directions(decoded, resampling) : bilinear(decoded, resampling);
  if (everyCount === 1) return decoded;
  const decodedColumnCount = (kept.columnCount - 1) * everyCount + 1;
  return Float32Array.from({ length: kept.columnCount * kept.rowCount }, (_, i) => {
    const [rowIndex, columnIndex] = [Math.floor(i / kept.columnCount), i % kept.columnCount];
    return decoded[rowIndex * everyCount * decodedColumnCount + columnIndex * everyCount] ?? Number.NaN;
  });
}

const bilinear = (values: Float32Array, places: GridPlaces): Float32Array =>
  Float32Array.from(places.cornerIndex, (_, i) => bilinearAt(values, places, i));

/** Directions are averaged as unit vectors. */
function directions(fromDegTrue: Float32Array, places: GridPlaces): Float32Array {
  const vectors = Array.from(fromDegTrue, (direction) => uvFromWind({ speed: 1, fromDegTrue: direction }));
  const u = bilinear(
    Float32Array.from(vectors, (vector) => vector.u),
    places,
  );
  const v = bilinear(
    Float32Array.from(vectors, (vector) => vector.v),
    places,
  );
  return u.map((east, i) => windFromUv(east, v[i] ?? Number.NaN).fromDegTrue);
}
