/** A mixed-integer linear program, written row by row, in the LP text format. */

export type Term = readonly [coefficient: number, variable: string];

const TERMS_PER_LINE = 12;

const termText = ([coefficient, variable]: Term): string =>
  `${coefficient < 0 ? '-' : '+'} ${Math.abs(coefficient)} ${variable}`;

function sumText(terms: readonly Term[]): string {
  const lines: string[] = [];
  for (let i = 0; i < terms.length; i += TERMS_PER_LINE) {
    lines.push(
      terms
        .slice(i, i + TERMS_PER_LINE)
        .map(termText)
        .join(' '),
    );
  }
  return lines.join('\n ');
}

export class LinearProgram {
  private readonly rows: string[] = [];
  private readonly bounds: string[] = [];
  private readonly binaries: string[] = [];

  /** Sum of the terms compared with a number. A row without terms says nothing. */
  addRow(terms: readonly Term[], relation: '<=' | '>=' | '=', right: number): void {
    if (terms.length > 0) this.rows.push(` r${this.rows.length}: ${sumText(terms)} ${relation} ${right}`);
  }

  addBinary(variable: string): void {
    this.binaries.push(variable);
  }

  addContinuous(variable: string, low: number, high: number): void {
    this.bounds.push(` ${low} <= ${variable} <= ${high}`);
  }

  get binaryCount(): number {
    return this.binaries.length;
  }

  get rowCount(): number {
    return this.rows.length;
  }

  /** The program with an objective to be made as great as possible. */
  toText(objective: readonly Term[]): string {
    const parts = ['Maximize', ` obj: ${sumText(objective)}`, 'Subject To', ...this.rows, 'Bounds', ...this.bounds];
    return [...parts, 'Binary', ...this.binaries.map((name) => ` ${name}`), 'End', ''].join('\n');
  }
}
