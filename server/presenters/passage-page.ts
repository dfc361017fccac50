import type { Problem } from '../../lib/result/index.ts';
import { type Clock, clockOf } from './clock.ts';
import { chosenJob, nextJob } from './choose-job.ts';
import { landOfTheEarth } from '../coastline.ts';
import { jobHref, jobRows, type JobRow } from './job-rows.ts';
import type { SeaMap } from './map/map-model.ts';
import { keptSeaMap } from './map/sea-map.ts';
import { nextCard, type NextCard } from './next-card.ts';
import { type Changes, planChangesSaid } from './plan-changes.ts';
import { planLine } from './plan-line.ts';
import { planNotes, type PlanNotes } from './plan-notes.ts';
import type { PlanReady, PlanStanding } from './plan-standing.ts';
import { type StatePage, statePage } from './state-page.ts';
import { strip } from './strip.ts';
import type { StripModel } from './strip-model.ts';
import { timeTexts } from './time-texts.ts';
import { viewIn } from './units/plan-texts.ts';
import { PLAIN_UNITS, type ShownUnits } from './units/shown-units.ts';

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
  /** What changed since the plan that stood before; null: there was none. */
  readonly changes: Changes | null;
  readonly rows: readonly JobRow[];
  readonly notes: PlanNotes;
}

interface Asked {
  readonly jobId: string | null;
  readonly nowEpochMs: number;
  /** Of the reader; absent: kn, m and °C. */
  readonly units?: ShownUnits;
  /** The hour to read; absent or null: the first one ahead. */
  readonly hourEpochMs?: number | null;
}

/** What the passage page shows of a standing plan; `askedJobId` that does not exist gives the next job. */
export function passagePage(standing: PlanStanding, asked: Asked): PassagePage {
  if (standing.kind === 'ready') return plannedPage(standing, asked);
  return statePage(standing, { href: asked.jobId === null ? '/' : jobHref(asked.jobId), nowEpochMs: asked.nowEpochMs });
}

function plannedPage(standing: PlanReady, asked: Asked): PlannedPage {
  const { units = PLAIN_UNITS } = asked;
  const view = viewIn(standing.view, units);
  const { plan, picture } = view;
  const times = timeTexts(picture.shipTimeOffsetMin, units);
  const job = chosenJob(plan, asked.jobId, picture.nowEpochMs);
  const isNext = job?.jobId === nextJob(plan, picture.nowEpochMs)?.jobId;
  return {
    kind: 'planned',
    name: plan.passageName,
    number: planLine(plan, times),
    clock: clockOf(picture, asked.nowEpochMs),
    notRenewed: [...(standing.notRenewed ?? []), ...(standing.notKept ?? [])],
    card: job === null ? null : nextCard({ plan, picture, job, isNext, times }),
    strip: strip({ plan, picture, job, times, hourEpochMs: asked.hourEpochMs ?? null }),
    map: keptSeaMap(standing.view, { land: landOfTheEarth(), chosenJobId: job?.jobId ?? null, times }),
    changes: planChangesSaid(standing.view, times),
    rows: jobRows(plan, job?.jobId ?? null, times),
    notes: planNotes(plan, picture, times),
  };
}
