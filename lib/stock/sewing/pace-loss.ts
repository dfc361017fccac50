/**
 * How sewing slows as it goes on, and how it is divided into sessions. Figures: common practice, no source.
 *
 * The rates of the table are those of whole jobs, so the loss is left out unless asked for. Its clock counts minutes
 * with the needle; a pause of minutes for the look-out and the hands only stops it, a long rest sets it to nothing.
 */

/** Time factor from these minutes with the needle on. */
export const PACE_LOSS = [
  { afterMin: 0, factorRatio: 1 },
  { afterMin: 60, factorRatio: 1.1 },
  { afterMin: 120, factorRatio: 1.25 },
  { afterMin: 180, factorRatio: 1.5 },
] as const;

/** How the sewing is divided. */
export interface SewingRhythm {
  /** Longest session with the needle, 45 … 75 min in practice. */
  readonly sessionMin: number;
  /** Between sessions: look-out, hands. */
  readonly pauseMin: number;
  /** Minutes with the needle before a long rest; null: all of it without one. */
  readonly stretchMin: number | null;
  /** The long rest, which gives the pace of the beginning back. */
  readonly restMin: number;
}

export const USUAL_RHYTHM: SewingRhythm = { sessionMin: 60, pauseMin: 20, stretchMin: null, restMin: 360 };

/** Sewing laid out in time. */
export interface SewingTime {
  /** With the needle, pace loss included where asked for. */
  readonly needleMin: number;
  readonly sessionCount: number;
  readonly restCount: number;
  /** From the first stitch to the last, pauses and rests included. */
  readonly elapsedMin: number;
}

/** Minutes with the needle for work that takes `freshMin` at the pace of the beginning, without a long rest. */
export function minutesWithPaceLoss(freshMin: number): number {
  let [leftMin, takenMin] = [freshMin, 0];
  for (const [index, { afterMin, factorRatio }] of PACE_LOSS.entries()) {
    const spanMin = (PACE_LOSS[index + 1]?.afterMin ?? Number.POSITIVE_INFINITY) - afterMin;
    const spentMin = Math.min(spanMin, leftMin * factorRatio);
    takenMin += spentMin;
    leftMin = Math.max(0, leftMin - spentMin / factorRatio);
  }
  return takenMin;
}

/** Work done in `takenMin` with the needle, in minutes at the pace of the beginning: the inverse. */
function freshMinutesIn(takenMin: number): number {
  return PACE_LOSS.reduce((freshMin, { afterMin, factorRatio }, index) => {
    const endMin = PACE_LOSS[index + 1]?.afterMin ?? Number.POSITIVE_INFINITY;
    return freshMin + Math.max(0, Math.min(takenMin, endMin) - afterMin) / factorRatio;
  }, 0);
}

/**
 * Lays out sewing that takes `freshMin` minutes at the pace of the beginning: sessions with pauses between, and after
 * every `stretchMin` with the needle a long rest instead of a pause.
 *
 * Throws for a session or a stretch that is not above 0.
 */
export function sewingTime(freshMin: number, rhythm: SewingRhythm, hasPaceLoss: boolean): SewingTime {
  const stretchMin = rhythm.stretchMin ?? Number.POSITIVE_INFINITY;
  if (!(rhythm.sessionMin > 0 && stretchMin > 0)) throw new Error('a session or a stretch without minutes');
  const freshPerStretchMin = hasPaceLoss ? freshMinutesIn(stretchMin) : stretchMin;
  const stretchCount = Math.max(1, Math.ceil(freshMin / freshPerStretchMin - 1e-9));
  const lastFreshMin = stretchCount === 1 ? freshMin : freshMin - (stretchCount - 1) * freshPerStretchMin;
  const lastMin = hasPaceLoss ? minutesWithPaceLoss(lastFreshMin) : lastFreshMin;
  const wholeCount = stretchCount - 1;
  const needleMin = (wholeCount === 0 ? 0 : wholeCount * stretchMin) + lastMin;
  const sessionsOf = (spanMin: number): number => Math.max(1, Math.ceil(spanMin / rhythm.sessionMin - 1e-9));
  const sessionCount = (wholeCount === 0 ? 0 : wholeCount * sessionsOf(stretchMin)) + sessionsOf(lastMin);
  return {
    needleMin,
    sessionCount,
    restCount: wholeCount,
    elapsedMin: needleMin + (sessionCount - stretchCount) * rhythm.pauseMin + wholeCount * rhythm.restMin,
  };
}
