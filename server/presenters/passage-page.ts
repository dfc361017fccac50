import type { Clock } from './clock.ts';
import type { Plan, PlanPicture } from '../../lib/planner/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import { chosenJob, nextJob } from './choose-job.ts';
import { jobHref, jobRows, type JobRow } from './job-rows.ts';
import { nextCard, type NextCard } from './next-card.ts';
import { planNotes, type PlanNotes } from './plan-notes.ts';
import { strip } from './strip.ts';
import type { StripModel } from './strip-model.ts';
import { offsetText, timeTexts } from './time-texts.ts';

/** A plan and the hours it lies in. */
export interface PassageView {
  readonly plan: Plan;
  readonly picture: PlanPicture;
}

/** Where the plan of the passage stands. */
export type PlanStanding =
  /** `readShare`: how much of the forecast is read, 0 to 1. */
  | { readonly kind: 'planning'; readonly sinceEpochMs: number; readonly readShare?: number }
  | { readonly kind: 'failed'; readonly problems: readonly Problem[] }
  | { readonly kind: 'ready'; readonly view: PassageView };

/** Passage page while there is no plan, or with one. */
export type PassagePage =
  | { readonly kind: 'planning'; readonly text: string; readonly againHref: string }
  | { readonly kind: 'failed'; readonly problems: readonly Problem[] }
  | PlannedPage;

export interface PlannedPage {
  readonly kind: 'planned';
  readonly name: string;
  readonly clock: Clock;
  /** null: the passage has no jobs. */
  readonly card: NextCard | null;
  readonly strip: StripModel;
  readonly rows: readonly JobRow[];
  readonly notes: PlanNotes;
}

/** What the passage page shows of a standing plan; `askedJobId` that does not exist gives the next job. */
export function passagePage(standing: PlanStanding, asked: { jobId: string | null; nowEpochMs: number }): PassagePage {
  if (standing.kind === 'failed') return standing;
  if (standing.kind === 'ready') return plannedPage(standing.view, asked);
  const waitedS = Math.max(0, Math.round((asked.nowEpochMs - standing.sinceEpochMs) / 1000));
  return {
    kind: 'planning',
    text: `${readText(standing.readShare)}${waitedS} s so far. The page shows the plan as soon as it is there.`,
    againHref: asked.jobId === null ? '/' : jobHref(asked.jobId),
  };
}

/** Long files only: a short one is read before anybody looks. */
const readText = (readShare: number | undefined): string =>
  readShare === undefined || readShare >= 1 ? '' : `Reading the forecast: ${Math.floor(readShare * 100)} %. `;

function plannedPage({ plan, picture }: PassageView, asked: { jobId: string | null; nowEpochMs: number }): PlannedPage {
  const times = timeTexts(picture.shipTimeOffsetMin);
  const job = chosenJob(plan, asked.jobId, picture.nowEpochMs);
  const isNext = job?.jobId === nextJob(plan, picture.nowEpochMs)?.jobId;
  return {
    kind: 'planned',
    name: plan.passageName,
    clock: clockOf(picture, asked.nowEpochMs),
    card: job === null ? null : nextCard({ plan, picture, job, isNext, times }),
    strip: strip({ plan, picture, job, times }),
    rows: jobRows(plan, job?.jobId ?? null, times),
    notes: planNotes(plan, picture, times),
  };
}

function clockOf(picture: PlanPicture, nowEpochMs: number): Clock {
  const isFixed = picture.clock === 'fixed';
  const times = timeTexts(picture.shipTimeOffsetMin);
  const shown = isFixed ? picture.nowEpochMs : nowEpochMs;
  return {
    ship: times.full(shown),
    offset: offsetText(picture.shipTimeOffsetMin),
    utc: times.utc(shown),
    note: isFixed ? 'clock held here' : '',
  };
}
