import type { Finding } from '../reasons/index.ts';
import { longestSleepFinding } from '../reasons/index.ts';
import { slotEpochMs } from '../time/index.ts';
import { fullMask, intersect } from '../windows/index.ts';
import { toGoNm } from '../voyage/index.ts';
import type { OwnPlan } from './own-plan-input.ts';
import { judgeOnDraws, ownCourse } from './own-plan-draws.ts';
import { ownFindings } from './own-plan-findings.ts';
import type { WalkedEntry } from './own-plan-walk.ts';
import { walkOwnPlan } from './own-plan-walk.ts';
import type { Preparation } from './prepare.ts';
import { prepare } from './prepare.ts';
import type { ReportingWeather } from './report.ts';
import { probabilityOf } from './report.ts';

/** One entry judged by every rule. */
export interface CheckedEntry {
  readonly jobId: string;
  readonly blockIndex: number | null;
  readonly handlingId: string | null;
  readonly sailStateId: string;
  /** On the slot nearest to what was asked for. */
  readonly startEpochMs: number;
  /** Planned end; null: the work cannot be judged at all. */
  readonly endEpochMs: number | null;
  readonly plannedMin: number | null;
  readonly referenceMin: number | null;
  /** Share of the reporting draws inside every known limit over the reference period; null: not judged. */
  readonly probability: number | null;
  readonly kssStart: number;
  readonly kssEnd: number;
  readonly alertnessStartPoints: number;
  /** All that is not met, in the order they are told in; limits that break in few scenarios among them. */
  readonly findings: readonly Finding[];
  readonly unknownLimits: readonly string[];
}

export interface CheckedJob {
  readonly jobId: string;
  /** Every block of it is finished by the plan. */
  readonly isFinished: boolean;
  readonly isConditional: boolean;
  /** Reporting draws in which all its entries hold; null: none is judged. */
  readonly probability: number | null;
}

/** Figures two plans are compared by. */
export interface OwnPlanFigures {
  /** Share of the reporting draws in which all entries on known limits hold together; null: there is none. */
  readonly allDoneProbability: number | null;
  readonly allDoneProbabilitySd: number | null;
  readonly finishedJobIds: readonly string[];
  readonly deckH: number;
  readonly lostNm: number;
  /** Sleep before the last work ends. */
  readonly sleepH: number;
  readonly endEpochMs: number;
  /** Entries and sleeps against which a rule speaks that no weather decides, or that fall below the wanted probability. */
  readonly violationCount: number;
}

export interface OwnPlanCheck extends OwnPlanFigures {
  readonly entries: readonly CheckedEntry[];
  /** Jobs of the passage, in its order. */
  readonly jobs: readonly CheckedJob[];
  /** Sleeps longer than the traffic allows. */
  readonly sleepFindings: readonly Finding[];
}

/**
 * Judges a plan made by hand: every entry by every rule, with amounts, and the whole as the planner's own plan is judged.
 *
 * Nothing is moved but starts to the nearest slot. An entry that breaks a rule is carried out all the same, so that what
 * comes after it is judged too. Jobs the planner leaves out because parts are short are judged as well, and the parts told.
 *
 * @param reporting fresh draws, as a finished plan is judged on
 */
export function checkOwnPlan(preparation: Preparation, reporting: ReportingWeather, own: OwnPlan): OwnPlanCheck {
  const open = withEveryJob(preparation);
  const walked = walkOwnPlan(open, own);
  const course = ownCourse(open, walked);
  const judged = walked.map((entry) => ({ entry, draws: judgeOnDraws(open, { course, entry, reporting }) }));
  const found = ownFindings(open, walked, own);
  const entries = judged.map(({ entry, draws }, k) => checkedEntry(open, { entry, draws }, found[k] ?? []));
  const sleepFindings = own.sleeps
    .map((sleep) => longestSleepFinding(sleep, open.passage.settings.longestSleepMin))
    .filter((finding) => (finding.margin ?? 0) < 0);
  const jobs = open.passage.jobs.map((job) => checkedJob(open, judged, { jobId: job.id, reporting }));
  return {
    entries,
    jobs,
    sleepFindings,
    ...figures(open, { judged, course, reporting, own, entries, jobs, sleepFindings }),
  };
}

type Draws = ReturnType<typeof judgeOnDraws>;
interface Judged {
  readonly entry: WalkedEntry;
  readonly draws: Draws;
}

/** A locker that nobody has filled in is counted by nobody: so no job is left out. */
function withEveryJob(preparation: Preparation): Preparation {
  if (preparation.excluded.size === 0) return preparation;
  const { passage, weather, grid, fromSlot } = preparation;
  const open = prepare({ ...passage, locker: { items: [] } }, weather, slotEpochMs(grid, fromSlot));
  return { ...open, passage };
}

function checkedEntry(preparation: Preparation, of: Judged, rules: readonly Finding[]): CheckedEntry {
  const { entry, draws } = of;
  const epochMs = (slot: number): number => slotEpochMs(preparation.grid, slot);
  return {
    jobId: entry.jobId,
    blockIndex: entry.unit?.block.index ?? null,
    handlingId: entry.handling?.id ?? null,
    sailStateId: entry.sailStateId,
    startEpochMs: epochMs(entry.startSlot),
    endEpochMs: entry.unit === null ? null : epochMs(entry.endSlot),
    plannedMin: draws?.plannedMin ?? null,
    referenceMin: draws === null ? null : draws.referenceSlots * preparation.grid.slotMin,
    probability: draws?.probability ?? null,
    kssStart: entry.kssStart,
    kssEnd: entry.kssEnd,
    alertnessStartPoints: entry.gateStart.alertnessPoints,
    findings: [...rules, ...(draws?.findings ?? [])],
    unknownLimits: draws?.unknownLimits ?? [],
  };
}

/** A job with an unknown limit anywhere never counts in what the plan promises. */
const isConditional = (judged: readonly Judged[], jobId: string): boolean =>
  judged.some(({ entry, draws }) => entry.jobId === jobId && (draws?.unknownLimits.length ?? 0) > 0);

function checkedJob(
  preparation: Preparation,
  judged: readonly Judged[],
  of: { jobId: string; reporting: ReportingWeather },
): CheckedJob {
  const own = judged.filter(({ entry, draws }) => entry.jobId === of.jobId && draws !== null);
  const units = preparation.units.filter((unit) => unit.job.id === of.jobId);
  const finished = units.filter((unit) => own.some(({ entry }) => entry.unit?.index === unit.index && entry.finishes));
  return {
    jobId: of.jobId,
    isFinished: units.length > 0 && finished.length === units.length,
    isConditional: isConditional(judged, of.jobId),
    probability: own.length === 0 ? null : probabilityOf(jointMask(own, of.reporting), of.reporting).probability,
  };
}

function jointMask(judged: readonly Judged[], reporting: ReportingWeather): Uint32Array {
  return judged.reduce(
    (mask, { draws }) => (draws === null ? mask : intersect(mask, draws.mask)),
    fullMask(reporting.weights.length),
  );
}

function figures(
  preparation: Preparation,
  of: Pick<OwnPlanCheck, 'entries' | 'jobs' | 'sleepFindings'> & {
    judged: readonly Judged[];
    course: ReturnType<typeof ownCourse>;
    reporting: ReportingWeather;
    own: OwnPlan;
  },
): OwnPlanFigures {
  const counted = of.judged.filter(({ entry, draws }) => draws !== null && !isConditional(of.judged, entry.jobId));
  const joint = counted.length === 0 ? null : probabilityOf(jointMask(counted, of.reporting), of.reporting);
  const endSlot = Math.max(preparation.fromSlot, ...of.judged.map(({ entry }) => entry.endSlot));
  const { track, nominal, grid } = preparation;
  const knownSlot = Math.min(endSlot, grid.slotCount - 1);
  const endEpochMs = slotEpochMs(grid, endSlot);
  const { wantedProbability } = preparation.passage.settings;
  return {
    allDoneProbability: joint?.probability ?? null,
    allDoneProbabilitySd: joint?.probabilitySd ?? null,
    finishedJobIds: of.jobs.filter((job) => job.isFinished).map((job) => job.jobId),
    deckH: deckMin(of.judged) / 60,
    lostNm: toGoNm(of.course, track, knownSlot) - toGoNm(nominal, track, knownSlot),
    sleepH:
      sleptMs(of.own, { fromEpochMs: slotEpochMs(grid, preparation.fromSlot), toEpochMs: endEpochMs }) / 3_600_000,
    endEpochMs,
    violationCount: of.entries.filter((entry) => isViolated(entry, wantedProbability)).length + of.sleepFindings.length,
  };
}

/** A rule that no weather decides speaks against it, or the weather holds less often than wanted. */
function isViolated(entry: CheckedEntry, wantedProbability: number): boolean {
  const isTooUnsure = entry.probability === null || entry.probability < wantedProbability - 1e-9;
  return isTooUnsure || entry.findings.some((finding) => finding.scenarioShare === null);
}

const deckMin = (judged: readonly Judged[]): number =>
  judged
    .filter(({ entry }) => entry.unit?.block.steps.some((step) => step.place !== 'below') === true)
    .reduce((sum, { entry, draws }) => sum + (draws?.plannedMin ?? entry.plannedMin), 0);

const sleptMs = (own: OwnPlan, within: { fromEpochMs: number; toEpochMs: number }): number =>
  own.sleeps.reduce(
    (sum, { startEpochMs, endEpochMs }) =>
      sum + Math.max(0, Math.min(endEpochMs, within.toEpochMs) - Math.max(startEpochMs, within.fromEpochMs)),
    0,
  );
