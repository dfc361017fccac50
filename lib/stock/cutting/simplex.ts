/** A column of a linear programme in standard form: its entries, and what one of it costs. */
export interface Column {
  readonly entries: readonly (readonly [rowIndex: number, value: number])[];
  readonly costPoints: number;
}

const EPSILON = 1e-9;

/**
 * Revised simplex with an explicit inverse, for column generation: minimise cost × x, A x = b, x ≥ 0.
 *
 * Begins with one column for each row that is the unit vector of the row.
 */
export class Simplex {
  readonly amounts: Float64Array;
  private readonly inverse: Float64Array[];
  private readonly basis: Column[];

  constructor(start: readonly Column[], rightSide: readonly number[]) {
    this.basis = [...start];
    this.amounts = Float64Array.from(rightSide);
    this.inverse = rightSide.map((_, row) => {
      const unit = new Float64Array(rightSide.length);
      unit[row] = 1;
      return unit;
    });
  }

  /** Price of each row. */
  prices(): Float64Array {
    const prices = new Float64Array(this.basis.length);
    for (const [row, { costPoints }] of this.basis.entries()) {
      const line = this.inverse[row];
      if (costPoints === 0 || line === undefined) continue;
      for (let column = 0; column < prices.length; column++)
        prices[column] = (prices[column] ?? 0) + costPoints * (line[column] ?? 0);
    }
    return prices;
  }

  /** Brings a column in; false when nothing bounds it. */
  enter(column: Column): boolean {
    const direction = this.inverse.map((line) =>
      column.entries.reduce((sum, [row, value]) => sum + (line[row] ?? 0) * value, 0),
    );
    const leavingIndex = this.leavingRow(direction);
    if (leavingIndex === null) return false;
    this.pivot(leavingIndex, direction);
    this.basis[leavingIndex] = column;
    return true;
  }

  /** Columns in use and how much of each. */
  solution(): readonly { readonly column: Column; readonly count: number }[] {
    return this.basis.map((column, row) => ({ column, count: this.amounts[row] ?? 0 }));
  }

  private leavingRow(direction: readonly number[]): number | null {
    let leavingIndex: number | null = null;
    let least = Number.POSITIVE_INFINITY;
    for (const [row, slope] of direction.entries()) {
      if (slope <= EPSILON) continue;
      const ratio = (this.amounts[row] ?? 0) / slope;
      // Of equal ratios the greatest slope: the steadiest pivot.
      const isSteadier = leavingIndex === null || slope > (direction[leavingIndex] ?? 0);
      if (ratio < least - EPSILON || (ratio < least + EPSILON && isSteadier)) [leavingIndex, least] = [row, ratio];
    }
    return leavingIndex;
  }

  private pivot(leavingIndex: number, direction: readonly number[]): void {
    const pivotLine = this.inverse[leavingIndex];
    if (pivotLine === undefined) throw new Error('a row without its line');
    const slope = direction[leavingIndex] ?? 1;
    for (let column = 0; column < pivotLine.length; column++) pivotLine[column] = (pivotLine[column] ?? 0) / slope;
    this.amounts[leavingIndex] = (this.amounts[leavingIndex] ?? 0) / slope;
    for (const [row, line] of this.inverse.entries()) {
      const factor = direction[row] ?? 0;
      if (row === leavingIndex || factor === 0) continue;
      for (let column = 0; column < line.length; column++)
        line[column] = (line[column] ?? 0) - factor * (pivotLine[column] ?? 0);
      this.amounts[row] = Math.max(0, (this.amounts[row] ?? 0) - factor * (this.amounts[leavingIndex] ?? 0));
    }
  }
}
