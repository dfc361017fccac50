import type { Problem } from '../../lib/result/index.ts';
import { type Clock, clockOf } from './clock.ts';
import { chosenJob, nextJob } from './choose-job.ts';
import { landOfTheEarth } from '../coastline.ts';
import { jobHref, jobRows, type JobRow } from './job-rows.ts';
import type { SeaMap } from './map/map-model.ts';
import { keptSeaMap } from './map/sea-map.ts';
import { nextCard, type NextCard } from './next-card.ts';
import { planLine } from './plan-line.ts';
import { planNotes, type PlanNotes } from './plan-notes.ts';
import type { PlanReady, PlanStanding } from './plan-standing.ts';
import { type StatePage, statePage } from './state-page.ts';
import { strip } from './strip.ts';
import type { StripModel } from './strip-model.ts';
import { timeTexts } from './time-texts.ts';

/** Passage page while there is no plan, or with one. */
export type PassagePage = StatePage | PlannedPage;

export interface PlannedPage {
  readonly kind: 'planned';
  readonly name: string;
  /** `Plan 3, made Thu 08:12` */
  readonly number: string;
  readonly clock: Clock;
  /** Why it could not be made again; empty: nothing went wrong. */
  readonly notRenewed: readonly Problem[];
  /** null: the passage has no jobs. */
  readonly card: NextCard | null;
  readonly strip: StripModel;
  /** null: nothing of the plan lies anywhere. */
  readonly map: SeaMap | null;
  readonly rows: readonly JobRow[];
  readonly notes: PlanNotes;
}

/** What the passage page shows of a standing plan; `askedJobId` that does not exist gives the next job. */
export function passagePage(standing: PlanStanding, asked: { jobId: string | null; nowEpochMs: number }): PassagePage {
  if (standing.kind === 'ready') return plannedPage(standing, asked);
  return statePage(standing, { href: asked.jobId === null ? '/' : jobHref(asked.jobId), nowEpochMs: asked.nowEpochMs });
}

function plannedPage(standing: PlanReady, asked: { jobId: string | null; nowEpochMs: number }): PlannedPage {
  const { plan, picture } = standing.view;
  const times = timeTexts(picture.shipTimeOffsetMin);
  const job = chosenJob(plan, asked.jobId, picture.nowEpochMs);
  const isNext = job?.jobId === nextJob(plan, picture.nowEpochMs)?.jobId;
  return {
    kind: 'planned',
    name: plan.passageName,
    number: planLine(plan, times),
    clock: clockOf(picture, asked.nowEpochMs),
    notRenewed: [...(standing.notRenewed ?? []), ...(standing.notKept ?? [])],
    card: job === null ? null : nextCard({ plan, picture, job, isNext, times }),
    strip: strip({ plan, picture, job, times }),
    map: keptSeaMap(standing.view, { land: landOfTheEarth(), chosenJobId: job?.jobId ?? null, times }),
    rows: jobRows(plan, job?.jobId ?? null, times),
    notes: planNotes(plan, picture, times),
  };
}
