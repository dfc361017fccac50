/** Both wavelets on doubles, back from sub-bands to samples (F.3): the 9/7, and the 5/3 where 32 bits are not enough. */
import { type Area, columnsOf, rowsOf } from './area.ts';
import type { Plane } from './plane.ts';
import { splitOf } from './wavelet-53.ts';

/** 1D_FILTR on a line whose even coordinates hold low-pass and odd ones high-pass coefficients, in place. */
type Filter = (line: Float64Array, parity: 0 | 1) => void;

/** 2D_SR: the sub-bands of a level, side by side in the upper left of the plane, become its samples; rows, then columns. */
export function synthesizeWide(plane: Plane<Float64Array>, area: Area, filter: Filter): void {
  const columns = { ...splitOf(area.fromColumnIndex, area.toColumnIndex), stepCount: 1 };
  const rows = { ...splitOf(area.fromRowIndex, area.toRowIndex), stepCount: plane.columnCount };
  for (let row = 0; row < rowsOf(area); row++) {
    synthesizeLine(plane.numbers, { ...columns, startIndex: row * plane.columnCount }, filter);
  }
  for (let column = 0; column < columnsOf(area); column++) {
    synthesizeLine(plane.numbers, { ...rows, startIndex: column }, filter);
  }
}

interface Line extends ReturnType<typeof splitOf> {
  readonly startIndex: number;
  /** Places of the plane from one coefficient to the next. */
  readonly stepCount: number;
}

function synthesizeLine(numbers: Float64Array, line: Line, filter: Filter): void {
  const { lowCount, highCount, parity, startIndex, stepCount } = line;
  const interleaved = new Float64Array(lowCount + highCount);
  for (let i = 0; i < lowCount + highCount; i++) {
    const to = i < lowCount ? 2 * i + parity : 2 * (i - lowCount) + 1 - parity;
    interleaved[to] = numbers[startIndex + i * stepCount] ?? 0;
  }
  filter(interleaved, parity);
  for (const [i, value] of interleaved.entries()) numbers[startIndex + i * stepCount] = value;
}

/**
 * One lifting step: adds to each coefficient of one kind what `gain` makes of its two neighbours. Beyond the ends the
 * line is mirrored (F.3.7).
 */
function lift(line: Float64Array, firstIndex: number, gain: (value: number) => number): void {
  const last = line.length - 1;
  for (let i = firstIndex; i <= last; i += 2) {
    const before = line[i === 0 ? 1 : i - 1] ?? 0;
    const after = line[i === last ? last - 1 : i + 1] ?? 0;
    line[i] = (line[i] ?? 0) + gain(before + after);
  }
}

/** Equations F-5 and F-6. */
export function filter53(line: Float64Array, parity: 0 | 1): void {
  if (line.length === 1) {
    if (parity === 1) line[0] = Math.trunc((line[0] ?? 0) / 2);
    return;
  }
  lift(line, parity, (sum) => -Math.floor((sum + 2) / 4));
  lift(line, 1 - parity, (sum) => Math.floor(sum / 2));
}

/** Table F.4. */
const ALPHA = -1.586_134_342_059_924;
const BETA = -0.052_980_118_572_961;
const GAMMA = 0.882_911_075_530_934;
const DELTA = 0.443_506_852_043_971;
const K = 1.230_174_104_914_001;

/** The six steps of F.3.8.2. */
export function filter97(line: Float64Array, parity: 0 | 1): void {
  if (line.length === 1) {
    if (parity === 1) line[0] = (line[0] ?? 0) / 2;
    return;
  }
  for (let i = 0; i < line.length; i++) line[i] = (line[i] ?? 0) * (i % 2 === parity ? K : 1 / K);
  lift(line, parity, (sum) => -DELTA * sum);
  lift(line, 1 - parity, (sum) => -GAMMA * sum);
  lift(line, parity, (sum) => -BETA * sum);
  lift(line, 1 - parity, (sum) => -ALPHA * sum);
}
