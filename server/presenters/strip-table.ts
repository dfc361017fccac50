import type { JobPicture, Plan, PlanPicture } from '../../lib/planner/index.ts';
import { MS_PER_H } from '../../lib/time/index.ts';
import { handlingText } from './handling-text.ts';
import type { StripTable, TimeAxis } from './strip-model.ts';
import { epochOf, type TimeTexts } from './time-texts.ts';
import { lightWords } from './light-words.ts';

const EVERY_H = 3;

/** The strip in words and figures, every three hours. */
export function stripTable(
  { plan, picture, job }: { plan: Plan; picture: PlanPicture; job: JobPicture | null },
  axis: TimeAxis,
  times: TimeTexts,
): StripTable {
  const handling = job === null ? '' : `, ${handlingText(picture, job.handling)}`;
  return {
    head: [
      'Ship’s time',
      'Light',
      `Deck wind, kn${handling}`,
      'Gust, kn',
      'Sea, m',
      'Alertness, points',
      'Planned then',
    ],
    rows: shownSlots(picture, axis).map((i) => [
      times.dayTime(picture.slotEpochMs[i] ?? 0),
      lightWords[picture.light[i] ?? 'night'],
      job === null ? 'no job' : spreadText(job.deckWindKn, i, 0),
      job === null ? 'no job' : valueText(job.deckGustKn[i], 0),
      spreadText(picture.seaHeightM, i, 1),
      valueText(picture.alertnessPoints[i], 1),
      doing(plan, picture.slotEpochMs[i] ?? 0),
    ]),
  };
}

function shownSlots(picture: PlanPicture, axis: TimeAxis): number[] {
  return Array.from(picture.slotEpochMs).flatMap((epochMs, i) =>
    epochMs % (EVERY_H * MS_PER_H) === 0 && epochMs <= axis.toEpochMs ? [i] : [],
  );
}

const valueText = (value: number | undefined, decimals: number): string =>
  value === undefined || Number.isNaN(value) ? 'unknown' : value.toFixed(decimals);

function spreadText(
  spread: { p10: Float32Array; p50: Float32Array; p90: Float32Array },
  i: number,
  decimals: number,
): string {
  const median = valueText(spread.p50[i], decimals);
  if (median === 'unknown') return median;
  return `${median} (${valueText(spread.p10[i], decimals)} to ${valueText(spread.p90[i], decimals)})`;
}

function doing(plan: Plan, epochMs: number): string {
  const entry = plan.entries.find(
    ({ startUtc, endUtc, kind }) => kind !== 'wait' && epochOf(startUtc) <= epochMs && epochMs < epochOf(endUtc),
  );
  if (entry === undefined) return 'watch';
  if (entry.kind === 'work') return plan.jobs.find((job) => job.jobId === entry.jobId)?.name ?? 'work';
  return entry.kind === 'sleep' ? 'sleep' : 'watch';
}
