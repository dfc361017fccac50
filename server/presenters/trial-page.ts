import { solverText } from '../../lib/brief/index.ts';
import type { Plan } from '../../lib/planner/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import { outdatedWords } from '../trial-problems.ts';
import { type Clock, clockOf } from './clock.ts';
import type { JobDocument } from './job-document.ts';
import { versionText } from './notices.ts';
import { planStrip } from './plan-strip.ts';
import type { PassageView, PlanStanding } from './plan-standing.ts';
import { makingText } from './state-page.ts';
import type { StripModel } from './strip-model.ts';
import { epochOf, timeTexts, type TimeTexts } from './time-texts.ts';
import { startFields, type TrialStart } from './trial-start.ts';
import { plannedTexts, trialFigures, type TrialFigure } from './trial-figures.ts';
import { trialRows, type TrialRow } from './trial-rows.ts';
import type { ShownUnits } from './units/shown-units.ts';
import { missOf, type TrialMiss } from './trial-miss.ts';
import { isTriedPlanned, type Outdated, type Trial } from './trial-standing.ts';
import { windowsHref } from './windows-choice.ts';

/** A plan tried beside the one that stands. */
export type TrialPage = NoTrialPage | TrialUnderWayPage | TrialWithoutPlanPage | WholeTrialPage;

/** Nothing is tried; or what was asked could not be begun or taken. */
export interface NoTrialPage {
  readonly kind: 'none';
  /** What was refused; null: nothing was. */
  readonly refused: { readonly title: string; readonly problems: readonly Problem[] } | null;
  readonly windowsHref: string;
  /** A trial is there all the same. */
  readonly hasTrial: boolean;
}

/** What every page of a trial says. */
interface TrialHead {
  readonly name: string;
  readonly clock: Clock;
  /** Hidden field of its forms. */
  readonly number: number;
  readonly jobName: string;
  /** `Fri 29 May 11:00`, ship’s time, and in UTC. */
  readonly when: string;
  readonly whenUtc: string;
  /** The look at this start. */
  readonly lookHref: string;
}

export interface TrialUnderWayPage extends TrialHead {
  readonly kind: 'trying';
  readonly text: string;
  readonly isStopping: boolean;
}

/** Stopped before anything was found, or it could not be made. */
export interface TrialWithoutPlanPage extends TrialHead {
  readonly kind: 'stopped' | 'failed';
  readonly problems: readonly Problem[];
}

export interface WholeTrialPage extends TrialHead {
  readonly kind: 'trial';
  /** The plan it is compared with: `plan 3 of Thu 08:12`. */
  readonly against: string;
  /** The answer, then what has to be known of it. */
  readonly sentences: readonly string[];
  /** Why it has no plan with that start; null: it has. */
  readonly miss: TrialMiss | null;
  /** Why it cannot be taken any more, and the start again; null: it is of now. */
  readonly outdated: { readonly text: string; readonly again: TrialStart | null } | null;
  /** It can be taken. */
  readonly canTake: boolean;
  readonly figures: readonly TrialFigure[];
  readonly rows: readonly TrialRow[];
  /** Jobs that are in the plan and not in the trial, each with the reason. */
  readonly fallOut: readonly string[];
  readonly strip: StripModel;
}

interface TrialInput {
  readonly trial: Trial | null;
  readonly standing: PlanStanding;
  readonly nowEpochMs: number;
  /** The passage as it is kept now; null: it cannot be read. */
  readonly document: JobDocument | null;
  /** Of the reader; absent: kn, m and °C. */
  readonly units?: ShownUnits;
  /** The hour pointed at; absent or null: the first one. */
  readonly hourEpochMs?: number | null;
}

/** @param refused what could not be done; it then stands in place of the trial */
export function trialPage(input: TrialInput, refused: NoTrialPage['refused'] = null): TrialPage {
  const { trial } = input;
  if (trial === null || refused !== null)
    return {
      kind: 'none',
      refused,
      hasTrial: trial !== null,
      windowsHref: trial === null ? '/windows' : lookOf(trial),
    };
  const head = headOf(trial, input.nowEpochMs);
  const { state } = trial;
  if (state.kind === 'planning') {
    const isStopping = state.isStopping === true;
    return { kind: 'trying', ...head, text: makingText(state, input.nowEpochMs), isStopping };
  }
  if (state.kind === 'ready') return wholePage(input, { trial, view: state.view, head });
  return { kind: state.kind, ...head, problems: state.kind === 'failed' ? state.problems : [] };
}

/** Address of the look at the start that is tried. */
export const lookOf = ({ tried: { jobId, partIndex, shownHandlingId, startUtc } }: Trial): string =>
  windowsHref({ jobId, partIndex, handlingId: shownHandlingId }, epochOf(startUtc));

function headOf(trial: Trial, nowEpochMs: number): TrialHead {
  const { number, tried, before } = trial;
  const times = timeTexts(before.picture.shipTimeOffsetMin);
  const startEpochMs = epochOf(tried.startUtc);
  return {
    name: before.plan.passageName,
    clock: clockOf(before.picture, nowEpochMs),
    number,
    jobName: tried.jobName,
    when: times.full(startEpochMs),
    whenUtc: times.utc(startEpochMs),
    lookHref: lookOf(trial),
  };
}

interface Found {
  readonly trial: Trial;
  readonly view: PassageView;
  readonly head: TrialHead;
}

function wholePage(
  { document, standing, units, hourEpochMs }: TrialInput,
  { trial, view, head }: Found,
): WholeTrialPage {
  const { before, tried, outdated } = trial;
  const times = timeTexts(before.picture.shipTimeOffsetMin, units);
  const isPlanned = isTriedPlanned(view, tried);
  const rows = trialRows({ before, after: view, tried, times });
  return {
    kind: 'trial',
    ...head,
    against: namedPlan(before.plan, times),
    sentences: [
      ...(isPlanned ? plannedTexts(view, before) : []),
      ...(view.isStoppedEarly
        ? [
            'Its search was stopped before it was done: this is the best plan found until then, and there may be a better one.',
          ]
        : []),
      solverText(view.plan),
    ],
    miss: isPlanned ? null : missOf(view, trial, times),
    outdated: outdated === null ? null : outdatedOf(outdated, { trial, document, standing }),
    canTake: isPlanned && outdated === null,
    figures: trialFigures(before, view),
    rows: rows.filter(({ isOut }) => !isOut),
    fallOut: rows.filter(({ isOut }) => isOut).flatMap(({ changes }) => changes),
    strip: {
      ...planStrip(view, times, hourEpochMs ?? null),
      title: 'The trial over the hours',
    },
  };
}

/** `plan 3 of Thu 08:12`; without a number `the plan of …`. */
const namedPlan = ({ planNumber, madeAtUtc }: Plan, times: TimeTexts): string =>
  `${planNumber === null ? 'the plan' : `plan ${planNumber}`} of ${times.dayTime(epochOf(madeAtUtc))}`;

function outdatedOf(
  outdated: Outdated,
  { trial, document, standing }: Pick<TrialInput, 'document' | 'standing'> & { readonly trial: Trial },
): WholeTrialPage['outdated'] {
  const canTry = outdated !== 'start-passed' && standing.kind === 'ready' && standing.making === undefined;
  const text = `This trial is of an earlier state: ${outdatedWords[outdated]}. It cannot be taken.`;
  return {
    text: canTry || outdated === 'start-passed' ? text : `${text} It can be tried again once the new plan is there.`,
    again: canTry && document !== null ? startFields({ ...trial.tried, version: versionText(document) }) : null,
  };
}
