/**
 * What cold allows: bare skin, bare hands, a shift in the open. Outer stops only; how much longer work takes in the cold
 * stands in `time-factors.ts`.
 */
import {
  COLD_LIMITS,
  FROSTBITE_BANDS,
  WARM_UP_SCHEDULE,
  WARM_UP_WINDS_KM_PER_H,
  type FrostbiteBand,
  type WarmUpCell,
} from './cold-limits.table.ts';
import type { Effort } from '../exertion/effort.ts';
import { requireFinite, requireNotNegative } from '../valid-range.ts';

const KMH_PER_KN = 1.852;

/**
 * The band a wind chill falls into; null when it is above 0 °C, where the table does not begin. The table has whole
 * degrees: parts of one count as the colder degree.
 *
 * @param chillC wind chill [°C]; throws for what is no number
 * @see sources.EC_WIND_CHILL_HAZARDS
 */
export function frostbiteBand(chillC: number): FrostbiteBand | null {
  requireFinite({ chillC });
  const wholeC = Math.floor(chillC);
  return FROSTBITE_BANDS.findLast((band) => wholeC <= band.warmestC) ?? null;
}

/**
 * Whether skin freezes sooner than the band says: in a wind that lasts above 50 km/h.
 *
 * @see sources.EC_WIND_CHILL_HAZARDS
 */
export function frostbiteSooner(deckWindKn: number): boolean {
  requireNotNegative({ deckWindKn });
  return deckWindKn * KMH_PER_KN > COLD_LIMITS.frostbiteSooner.value;
}

/**
 * Minutes that bare hands can work, a rule of thumb: air in °F + 5, never below 0. null above 10 °C: no limit. Wind and
 * wet are not in it.
 *
 * @param airC air [°C]; throws for what is no number
 * @see sources.ROGERS_NSMRL_1067
 */
export function bareHandLimitMin(airC: number): number | null {
  requireFinite({ airC });
  if (airC > COLD_LIMITS.bareHandWarmest.value) return null;
  return Math.max(0, (airC * 9) / 5 + 32 + COLD_LIMITS.bareHandOffset.value);
}

/** How to divide a shift of four hours in the open. */
export type WarmUpSchedule =
  | {
      readonly kind: 'work';
      /** Longest stretch of work; null: as on any day. */
      readonly longestWorkMin: number | null;
      /** Breaks in a warm place in four hours, each so long. */
      readonly breaksCount: number;
      readonly breakMin: number;
    }
  /** No work outside but what cannot wait. */
  | { readonly kind: 'stop' }
  /** Nothing is said: warmer than the table begins, or more wind than its last column. More wind never is a yes. */
  | { readonly kind: 'not-in-table'; readonly because: 'warmer' | 'more-wind' };

/**
 * The work and warm-up schedule of a four-hour shift. It begins at −26 °C and ends at 32 km/h of wind. Between rows and
 * columns the colder and the windier one counts; light work goes one row colder, since it warms less.
 *
 * @param of air [°C] and wind over the deck [kn, 0 or more]; throws for what is no number
 * @see sources.WORK_WARM_UP
 */
export function warmUpSchedule(of: { airC: number; deckWindKn: number; effort: Effort }): WarmUpSchedule {
  requireFinite({ airC: of.airC });
  requireNotNegative({ deckWindKn: of.deckWindKn });
  const wholeC = Math.floor(of.airC);
  const rowIndex = WARM_UP_SCHEDULE.findLastIndex((row) => wholeC <= row.warmestC);
  if (rowIndex < 0) return { kind: 'not-in-table', because: 'warmer' };
  const colderIndex = of.effort === 'light' ? rowIndex + 1 : rowIndex;
  const cells = WARM_UP_SCHEDULE[Math.min(colderIndex, WARM_UP_SCHEDULE.length - 1)]?.cells ?? [];
  return scheduleOf(cells, of.deckWindKn * KMH_PER_KN);
}

function scheduleOf(cells: readonly WarmUpCell[], windKmPerH: number): WarmUpSchedule {
  const columnIndex = WARM_UP_WINDS_KM_PER_H.findIndex((most) => windKmPerH <= most);
  // Beyond the last column nothing is said, unless work stops there already.
  const cell = columnIndex < 0 ? cells.at(-1) : cells[columnIndex];
  if (cell === 'stop') return { kind: 'stop' };
  if (columnIndex < 0 || cell === undefined) return { kind: 'not-in-table', because: 'more-wind' };
  return { kind: 'work', ...cell, breakMin: COLD_LIMITS.warmUpBreak.value };
}
