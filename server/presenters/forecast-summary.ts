import { coverageProblems, type Forecast, quantityOf } from '../../lib/forecast/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import { MS_PER_H } from '../../lib/time/index.ts';
import { coverageData, type Covered } from './coverage/coverage-data.ts';
import type { CoverageData } from './coverage/coverage-model.ts';

/** What the forecast of a plan holds, as plain data. */
export interface ForecastSummary {
  readonly baseEpochMs: number;
  readonly firstEpochMs: number;
  readonly endEpochMs: number;
  readonly memberCount: number;
  readonly hasControl: boolean;
  readonly quantities: readonly HeldQuantity[];
  /** Names of what it does not hold. */
  readonly missing: readonly string[];
  readonly notes: readonly string[];
  readonly problems: readonly Problem[];
  /** Where and when the plan needs it and it is silent. */
  readonly uncovered: readonly Problem[];
  /** Its reach along the way, in space and time. */
  readonly coverage: CoverageData;
}

export interface HeldQuantity {
  readonly name: string;
  readonly firstEpochMs: number;
  readonly endEpochMs: number;
  /** null: a single field. */
  readonly stepH: { readonly least: number; readonly most: number } | null;
  readonly memberCount: number;
  readonly hasControl: boolean;
  readonly area: Forecast['coverage'][number]['area'];
  readonly gridStepDeg: { readonly lat: number; readonly lon: number };
}

/** Most places asked for; more say nothing else. */
const PLACE_COUNT = 60;

/** Sums up the forecast of a plan. */
export function forecastSummary(of: Covered & { readonly nowEpochMs: number }): ForecastSummary {
  const { forecast, nominal, passage } = of;
  const fromEpochMs = Math.max(of.nowEpochMs, passage.start.epochMs);
  const horizonH = passage.settings.horizonH ?? 0;
  const every = Math.max(1, Math.floor(nominal.lat.length / PLACE_COUNT));
  const positions = Array.from(nominal.lat, (lat, i) => ({ lat, lon: nominal.lon[i] ?? Number.NaN })).filter(
    (_, i) => i % every === 0,
  );
  return {
    baseEpochMs: forecast.baseEpochMs,
    firstEpochMs: forecast.firstEpochMs,
    endEpochMs: forecast.endEpochMs,
    memberCount: forecast.memberIds.length,
    hasControl: forecast.hasControl,
    quantities: forecast.coverage.map((held) => ({
      name: quantityOf(held.quantity).name,
      firstEpochMs: held.firstEpochMs,
      endEpochMs: held.endEpochMs,
      stepH: held.stepH,
      memberCount: held.memberCount,
      hasControl: held.hasControl,
      area: held.area,
      gridStepDeg: held.gridStepDeg,
    })),
    missing: forecast.missing.map((id) => quantityOf(id).name),
    notes: forecast.notes,
    problems: forecast.problems,
    uncovered: coverageProblems(forecast, {
      positions,
      fromEpochMs,
      toEpochMs: fromEpochMs + horizonH * MS_PER_H,
    }),
    coverage: coverageData(of),
  };
}
