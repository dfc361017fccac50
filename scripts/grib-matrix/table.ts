/** The table of the matrix. */
import type { MatrixOutcome } from './compare-row.ts';

const NAME_WIDTH = 40;
/** Kinds of outcome in columns, with their headings. */
const COLUMNS = [
  ['equal', 'equal'],
  ['differing', 'differ'],
  ['unsupported', 'unsup.'],
  ['known-defect', 'defect'],
  ['reference-failed', 'ecc-'],
  ['not-as-asked', 'unmade'],
] as const satisfies readonly (readonly [MatrixOutcome['kind'], string])[];

const cell = (text: string | number): string => String(text).padStart(8);

/** `defect`: known defect of ecCodes; `ecc-`: ecCodes cannot read it; `unmade`: ecCodes did not write what it was told. */
export function formatHeading(): string {
  const counts = ['files', ...COLUMNS.map(([, heading]) => heading)];
  return 'group'.padEnd(NAME_WIDTH) + counts.map(cell).join('') + cell('rel.') + cell('place °');
}

export function formatRow(name: string, outcomes: readonly MatrixOutcome[]): string {
  const counts = COLUMNS.map(([kind]) => outcomes.filter((one) => one.kind === kind).length);
  const largest = (figure: (one: MatrixOutcome) => number): string => {
    const found = Math.max(0, ...outcomes.map(figure));
    return found === 0 ? '0' : found.toExponential(0);
  };
  return (
    name.padEnd(NAME_WIDTH) +
    [outcomes.length, ...counts].map(cell).join('') +
    cell(largest((one) => one.largestRelative)) +
    cell(largest((one) => one.largestPositionDeg))
  );
}

/** What is not simply equal, one line for each reason with how often it came. */
export function formatReasons(outcomes: readonly MatrixOutcome[]): string[] {
  const times = new Map<string, number>();
  for (const { kind, reason } of outcomes) {
    if (kind === 'equal' && reason === 'all') continue;
    times.set(`${kind}: ${reason}`, (times.get(`${kind}: ${reason}`) ?? 0) + 1);
  }
  return [...times].map(([reason, count]) => `    ${count} × ${reason}`);
}
