import type { JobPicture, Plan, PlanEntry, PlanPicture } from '../../lib/planner/index.ts';
import { MS_PER_H } from '../../lib/time/index.ts';
import { handlingText } from './handling-text.ts';
import type { StripTable, TimeAxis } from './strip-model.ts';
import { epochOf, type TimeTexts } from './time-texts.ts';
import { lightWords } from './light-words.ts';
import { valueText } from './hour-values-text.ts';
import { cellText, headUnit, SEA_HEIGHT, spreadCell, WIND } from './units/hour-figures.ts';

const EVERY_H = 3;

interface Tabled {
  readonly plan: Plan;
  readonly picture: PlanPicture;
  /** Whose deck wind it is; `at-work`: of the work of each hour. */
  readonly job: JobPicture | 'at-work' | null;
}

/** The strip in words and figures, every three hours. */
export function stripTable({ plan, picture, job }: Tabled, axis: TimeAxis, times: TimeTexts): StripTable {
  const { units } = times;
  const handling = job === null ? '' : job === 'at-work' ? ', at work' : `, ${handlingText(picture, job.handling)}`;
  return {
    head: [
      'Ship’s time',
      'Light',
      `Deck wind, ${headUnit(WIND, units)}${handling}`,
      `Gust, ${headUnit(WIND, units)}`,
      `Sea, ${headUnit(SEA_HEIGHT, units)}`,
      'Alertness, points',
      'Planned then',
    ],
    rows: shownSlots(picture, axis).map((i) => {
      const atEpochMs = picture.slotEpochMs[i] ?? 0;
      const shown = job === 'at-work' ? workedJob({ plan, picture }, atEpochMs) : job;
      const none = job === 'at-work' ? 'no work' : 'no job';
      return [
        times.dayTime(atEpochMs),
        lightWords[picture.light[i] ?? 'night'],
        shown === null ? none : spreadCell(shown.deckWindKn, i, WIND, units),
        shown === null ? none : cellText(shown.deckGustKn[i], WIND, units),
        spreadCell(picture.seaHeightM, i, SEA_HEIGHT, units),
        valueText(picture.alertnessPoints[i], 1),
        doing(plan, atEpochMs),
      ];
    }),
  };
}

function workedJob({ plan, picture }: Pick<Tabled, 'plan' | 'picture'>, epochMs: number): JobPicture | null {
  const entry = entryAt(plan, epochMs);
  if (entry?.kind !== 'work') return null;
  return picture.jobs.find(({ jobId }) => jobId === entry.jobId) ?? null;
}

function shownSlots(picture: PlanPicture, axis: TimeAxis): number[] {
  return Array.from(picture.slotEpochMs).flatMap((epochMs, i) =>
    epochMs % (EVERY_H * MS_PER_H) === 0 && epochMs <= axis.toEpochMs ? [i] : [],
  );
}

const entryAt = (plan: Plan, epochMs: number): PlanEntry | undefined =>
  plan.entries.find(
    ({ startUtc, endUtc, kind }) => kind !== 'wait' && epochOf(startUtc) <= epochMs && epochMs < epochOf(endUtc),
  );

function doing(plan: Plan, epochMs: number): string {
  const entry = entryAt(plan, epochMs);
  if (entry === undefined) return 'watch';
  if (entry.kind === 'work') return plan.jobs.find((job) => job.jobId === entry.jobId)?.name ?? 'work';
  return entry.kind === 'sleep' ? 'sleep' : 'watch';
}
