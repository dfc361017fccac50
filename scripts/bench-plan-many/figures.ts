/** What many plans took, counted together. */
import type { PlannedFolder } from './plan-folder.ts';

export interface Figures {
  readonly parallelCount: number;
  readonly plannedCount: number;
  readonly tookS: number;
  readonly plansPerMin: number;
  /** Of one plan. */
  readonly tookPerPlanS: Spread;
  readonly processorPerPlanS: Spread;
  readonly peakPerPlanMib: Spread;
}

interface Spread {
  readonly p50: number;
  readonly most: number;
}

export function figuresOf({ parallelCount, tookMs, passages }: PlannedFolder): Figures {
  const planned = passages.filter(({ plan }) => plan !== null);
  const tookS = tookMs / 1000;
  return {
    parallelCount,
    plannedCount: planned.length,
    tookS,
    plansPerMin: (60 * planned.length) / tookS,
    tookPerPlanS: spreadOf(planned.map((of) => (of.tookMs ?? Number.NaN) / 1000)),
    processorPerPlanS: spreadOf(planned.map(({ processorMs }) => (processorMs ?? Number.NaN) / 1000)),
    peakPerPlanMib: spreadOf(planned.map(({ peakOctets }) => (peakOctets ?? Number.NaN) / 2 ** 20)),
  };
}

/** Median (the upper of two) and greatest. */
function spreadOf(values: readonly number[]): Spread {
  const sorted = values.toSorted((a, b) => a - b);
  return { p50: sorted[Math.floor(sorted.length / 2)] ?? Number.NaN, most: sorted.at(-1) ?? Number.NaN };
}

/** A row each, and how much quicker each is than the first. */
export function figuresText(all: readonly Figures[]): string {
  const head =
    'at once  plans  min  plans/min  × first  a plan: s P50 (most)  processor s P50 (most)  peak MiB P50 (most)';
  const rows = all.map((of) =>
    [
      String(of.parallelCount).padStart(7),
      String(of.plannedCount).padStart(5),
      (of.tookS / 60).toFixed(1).padStart(4),
      of.plansPerMin.toFixed(1).padStart(9),
      (of.plansPerMin / (all[0]?.plansPerMin ?? Number.NaN)).toFixed(2).padStart(7),
      spreadText(of.tookPerPlanS, 1).padStart(21),
      spreadText(of.processorPerPlanS, 1).padStart(22),
      spreadText(of.peakPerPlanMib, 0).padStart(19),
    ].join('  '),
  );
  return [head, ...rows].join('\n');
}

const spreadText = ({ p50, most }: Spread, digitCount: number): string =>
  `${p50.toFixed(digitCount)} (${most.toFixed(digitCount)})`;
