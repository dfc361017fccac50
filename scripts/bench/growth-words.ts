/** The fit of the plan's time, in words. */
import { fitGrowth, type GrowthFit } from './growth-fit.ts';
import { planSizeName, type PlanSize } from './plan-grid.ts';
import type { PlanRun } from './plan-run.ts';

export interface TimedSize {
  readonly size: PlanSize;
  readonly run: PlanRun;
}

const FACTOR_NAMES = ['jobs', 'scenarios', 'hours'] as const;

const factorsOf = ({ size, run }: TimedSize): readonly number[] => [size.jobCount, run.scenarioCount, size.horizonH];

export const growthOf = (timed: readonly TimedSize[]): GrowthFit | null =>
  fitGrowth(timed.map((one) => ({ factors: factorsOf(one), value: one.run.planMs })));

/** A point further off the fit than this many standard deviations does not fit. */
const MOST_SDS = 1.5;

export function growthLines(timed: readonly TimedSize[]): readonly string[] {
  const fit = growthOf(timed);
  if (fit === null) return ['plan: too few cases to tell how the time grows'];
  const powers = FACTOR_NAMES.map(
    (name, i) =>
      `${name}^${(fit.exponents[i] ?? Number.NaN).toFixed(2)} (± ${(fit.exponentSds[i] ?? Number.NaN).toFixed(2)})`,
  );
  if (timed.length <= FACTOR_NAMES.length + 1)
    return [
      `plan: ${timed.length} cases grow as ${powers.map((power) => power.replace(/ .*/, '')).join(' × ')}, too few to tell how sure that is`,
    ];
  const offBy = Math.log(fit.scatterRatio) * MOST_SDS;
  const off = timed.flatMap(({ size }, i) => {
    const residual = fit.residuals[i] ?? 0;
    return Math.abs(residual) > offBy
      ? [`${planSizeName(size)} takes ${Math.exp(residual).toFixed(1)} times the fit`]
      : [];
  });
  const unproven = timed.filter(({ run }) => !run.isProven).map(({ size }) => planSizeName(size));
  return [
    `plan: time grows about as ${powers.join(' × ')}; a case lies off it by a factor of ${fit.scatterRatio.toFixed(2)} (one standard deviation, ${timed.length} cases)`,
    ...(off.length === 0 ? [] : [`plan: it does not fit where ${off.join('; ')}`]),
    ...(unproven.length === 0
      ? []
      : [`plan: not proven best, so that a budget and not the problem sets the time: ${unproven.join('; ')}`]),
  ];
}
