import { goesByAir, waitP80H, waitRateRatio, type BackgroundWait } from '../../jobs/index.ts';
import { MS_PER_H, MS_PER_MIN } from '../../time/index.ts';
import type { Known } from './known.ts';

/** Air is followed in steps of this length. */
const STEP_MIN = 10;

/** A wait that is not over after so long counts as never over. Ours. */
const LONGEST_H = 60 * 24;

/** An air temperature that was read holds for so long. Ours. */
const AIR_HOLDS_H = 6;

/** What rounding leaves of a wait is not waited for. */
const NEGLIGIBLE_H = 1e-6;

/** The end of a background wait. */
export interface WaitOver {
  readonly epochMs: number;
  readonly isInSight: boolean;
}

/**
 * When a background wait is over that began at an instant [epoch ms], counted at its P80 as the planner counts it.
 *
 * Where it goes by the air, that is the air as it was logged in the six hours before each instant, else `airCAt`, else
 * the coldest in which it goes on at all.
 *
 * @returns 60 days on and out of sight where it is not over by then: the air is too cold
 */
export function waitOver(wait: BackgroundWait, fromEpochMs: number, known: Known): WaitOver {
  const neededH = waitP80H(wait);
  const outOfSight = { epochMs: fromEpochMs + LONGEST_H * MS_PER_H, isInSight: false };
  if (!goesByAir(wait)) {
    const ratio = waitRateRatio(wait, Number.NaN);
    return ratio > 0 ? { epochMs: fromEpochMs + (neededH / ratio) * MS_PER_H, isInSight: true } : outOfSight;
  }
  const airC = airAlong(known);
  let leftH = neededH;
  for (let atMin = 0; atMin < LONGEST_H * 60; atMin += STEP_MIN) {
    const epochMs = fromEpochMs + atMin * MS_PER_MIN;
    const ratio = waitRateRatio(wait, airC(epochMs));
    const goneH = (ratio * STEP_MIN) / 60;
    if (goneH >= leftH - NEGLIGIBLE_H) return { epochMs: epochMs + (leftH / ratio) * MS_PER_H, isInSight: true };
    leftH -= goneH;
  }
  return outOfSight;
}

/** Air at an instant: the last one read before it, if that is not too old. */
function airAlong({ effective, airCAt }: Known): (epochMs: number) => number {
  const read = effective.flatMap(({ statement, atEpochMs }) =>
    statement.kind === 'observation' && statement.airC !== undefined ? [{ atEpochMs, airC: statement.airC }] : [],
  );
  return (epochMs) => {
    const last = read.findLast(({ atEpochMs }) => atEpochMs <= epochMs);
    return last !== undefined && epochMs - last.atEpochMs <= AIR_HOLDS_H * MS_PER_H ? last.airC : airCAt(epochMs);
  };
}
