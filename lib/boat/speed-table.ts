import { wrap180Deg } from '../units/index.ts';
import type { SpeedRow } from './boat.ts';

interface AngleColumn {
  readonly twaDeg: number;
  /** Ascending, with the speed at each. */
  readonly twsKn: readonly number[];
  readonly boatSpeedKn: readonly number[];
}

/** One table's columns, by its rows: a table is asked many thousand times and never changes. */
const columnsByRows = new WeakMap<readonly SpeedRow[], readonly AngleColumn[]>();

/**
 * Boat speed [kn] from a table in long form, bilinear in true wind angle and true wind speed.
 *
 * Angles outside the table take its nearest angle; wind above the last speed takes the last; wind below the first
 * scales in proportion, so that no wind gives no speed. Angles may carry different wind speeds. Either tack.
 */
export function tableSpeedKn(
  rows: readonly SpeedRow[],
  wind: { readonly twaDeg: number; readonly twsKn: number },
): number {
  return speedInTable(rows)(wind.twaDeg, wind.twsKn);
}

/** {@link tableSpeedKn} of one table, for asking many times: by true wind angle [degrees] and true wind [kn]. */
export function speedInTable(rows: readonly SpeedRow[]): (twaDeg: number, twsKn: number) => number {
  const columns = columnsOf(rows);
  return (signedTwaDeg, twsKn) => {
    const twaDeg = Math.abs(wrap180Deg(signedTwaDeg));
    let above = 0;
    while (above < columns.length - 1 && (columns[above]?.twaDeg ?? 180) < twaDeg) above++;
    const upper = columns[above];
    const lower = columns[Math.max(0, above - 1)];
    if (upper === undefined || lower === undefined) throw new Error('a speed table has no rows');
    const upperKn = columnSpeedKn(upper, twsKn);
    if (twaDeg >= upper.twaDeg || upper === lower) return upperKn;
    const share = (twaDeg - lower.twaDeg) / (upper.twaDeg - lower.twaDeg);
    return columnSpeedKn(lower, twsKn) * (1 - share) + upperKn * share;
  };
}

function columnSpeedKn(column: AngleColumn, twsKn: number): number {
  if (!(twsKn > 0)) return 0;
  const { twsKn: windsKn, boatSpeedKn: speedsKn } = column;
  let above = 0;
  while (above < windsKn.length && (windsKn[above] ?? Infinity) < twsKn) above++;
  if (above === windsKn.length) return speedsKn[above - 1] ?? 0;
  const highKn = windsKn[above] ?? 0;
  const lowKn = above === 0 ? 0 : (windsKn[above - 1] ?? 0);
  const slow = above === 0 ? 0 : (speedsKn[above - 1] ?? 0);
  if (highKn === lowKn) return slow;
  return slow + (((speedsKn[above] ?? 0) - slow) * (twsKn - lowKn)) / (highKn - lowKn);
}

function columnsOf(rows: readonly SpeedRow[]): readonly AngleColumn[] {
  const known = columnsByRows.get(rows);
  if (known !== undefined) return known;
  const byAngle = new Map<number, SpeedRow[]>();
  for (const row of rows) byAngle.set(row.twaDeg, [...(byAngle.get(row.twaDeg) ?? []), row]);
  const columns = [...byAngle.entries()]
    .toSorted(([oneDeg], [otherDeg]) => oneDeg - otherDeg)
    .map(([twaDeg, ofAngle]) => {
      const byWind = ofAngle.toSorted((one, other) => one.twsKn - other.twsKn);
      return { twaDeg, twsKn: byWind.map((row) => row.twsKn), boatSpeedKn: byWind.map((row) => row.boatSpeedKn) };
    });
  columnsByRows.set(rows, columns);
  return columns;
}
