import type { Job } from './job.ts';

/** Stop work at these, seen over the deck; null: the job has no such limit. Rounded down, never up. */
export interface StopNumbers {
  /** Whole. */
  readonly windKn: number | null;
  /** Whole. */
  readonly gustKn: number | null;
  /** Tenths. */
  readonly seaM: number | null;
}

/** The strictest no-go levels of a job's steps, rounded down: at them work stops. Null: no step has any. */
export function stopNumbersOf({ steps }: Pick<Job, 'steps'>): StopNumbers | null {
  const windKn = strictest(
    steps.map(({ limits }) => limits.deckWindKn?.noGo ?? null),
    1,
  );
  const gustKn = strictest(
    steps.map(({ limits }) => limits.deckGustNoGoKn),
    1,
  );
  const seaM = strictest(
    steps.map(({ limits }) => limits.seaHeightM?.noGo ?? null),
    10,
  );
  return windKn === null && gustKn === null && seaM === null ? null : { windKn, gustKn, seaM };
}

function strictest(values: readonly (number | null)[], stepsPerUnitCount: number): number | null {
  const known = values.filter((value) => value !== null && Number.isFinite(value));
  if (known.length === 0) return null;
  // 3.2 m is 32 tenths, not 31.999…
  return Math.floor(Math.min(...known.map(Number)) * stepsPerUnitCount + 1e-9) / stepsPerUnitCount;
}
