import type { JobPicture, Plan, PlanPicture } from '../../lib/planner/index.ts';
import { MS_PER_H } from '../../lib/time/index.ts';
import { handlingText } from './handling-text.ts';
import type { StripTable, TimeAxis } from './strip-model.ts';
import { epochOf, type TimeTexts } from './time-texts.ts';
import { lightWords } from './light-words.ts';
import { valueText } from './hour-values-text.ts';
import { cellText, headUnit, SEA_HEIGHT, spreadCell, WIND } from './units/hour-figures.ts';

const EVERY_H = 3;

/** The strip in words and figures, every three hours. */
export function stripTable(
  { plan, picture, job }: { plan: Plan; picture: PlanPicture; job: JobPicture | null },
  axis: TimeAxis,
  times: TimeTexts,
): StripTable {
  const { units } = times;
  const handling = job === null ? '' : `, ${handlingText(picture, job.handling)}`;
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
    rows: shownSlots(picture, axis).map((i) => [
      times.dayTime(picture.slotEpochMs[i] ?? 0),
      lightWords[picture.light[i] ?? 'night'],
      job === null ? 'no job' : spreadCell(job.deckWindKn, i, WIND, units),
      job === null ? 'no job' : cellText(job.deckGustKn[i], WIND, units),
      spreadCell(picture.seaHeightM, i, SEA_HEIGHT, units),
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

function doing(plan: Plan, epochMs: number): string {
  const entry = plan.entries.find(
    ({ startUtc, endUtc, kind }) => kind !== 'wait' && epochOf(startUtc) <= epochMs && epochMs < epochOf(endUtc),
  );
  if (entry === undefined) return 'watch';
  if (entry.kind === 'work') return plan.jobs.find((job) => job.jobId === entry.jobId)?.name ?? 'work';
  return entry.kind === 'sleep' ? 'sleep' : 'watch';
}
