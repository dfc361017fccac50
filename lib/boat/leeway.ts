import { LEEWAY_ROWS, type LeewayRow } from './leeway.table.ts';

/** The published leeway row of an id or full name; null when the list has none. */
export function leewayRow(idOrName: string): LeewayRow | null {
  return LEEWAY_ROWS.find(({ id, name }) => id === idOrName || name === idOrName) ?? null;
}

/** Leeway [kn] in a 10 m wind [kn]: straight downwind, and across it if the boat goes off to the right or left. */
export function leeway(
  row: LeewayRow,
  windKn: number,
): { downwindKn: number; crossRightKn: number; crossLeftKn: number } {
  return {
    downwindKn: row.downwindRatio * windKn,
    crossRightKn: row.crossRightRatio * windKn,
    crossLeftKn: row.crossLeftRatio * windKn,
  };
}
