import type { Finding } from '../reasons/index.ts';
import type { FactorId } from '../windows/index.ts';
import type { StartCheck } from './start-numbers.ts';

/** The plan as it is published (JSON of `slatch plan`); keys are documented field by field in DEVELOPERS.md. */

export interface Plan {
  /** Number it is kept under; null: it has none. */
  readonly planNumber: number | null;
  readonly seed: number;
  readonly madeAtUtc: string;
  readonly passageName: string;
  readonly forecast: {
    readonly baseTimeUtc: string;
    readonly ageH: number;
    /** Scenarios the plan was made on: ensemble members, or draws of the error model. */
    readonly members: number;
    /** Quantities the forecast does not hold. */
    readonly missing: readonly string[];
    readonly endUtc: string;
  };
  readonly entries: readonly PlanEntry[];
  readonly jobs: readonly PlannedJob[];
  readonly totals: {
    /** Share of scenarios (0..1) in which all unconditional planned jobs stay inside their limits together; null: none planned. */
    readonly allDoneProbability: number | null;
    /** One standard error of it. */
    readonly allDoneProbabilitySd: number | null;
    readonly deckH: number;
    readonly lostNm: number;
    readonly sleepHPer24H: number;
    readonly unwatchedMin: number;
    /** Unconditional jobs done inside their limits, on average, when steps take as long as they take; null: none planned. */
    readonly expectedJobsDone: number | null;
  };
  /** What is left when nothing begins before the next forecast is there; null: nothing is planned before it, or the search was stopped. */
  readonly waiting: {
    readonly untilUtc: string;
    readonly plannedJobIds: readonly string[];
    /** On the scenarios searched, against the same figure of the plan itself. */
    readonly allDoneProbability: number | null;
    readonly allDoneProbabilityNow: number;
    readonly text: string;
  } | null;
  /** Whether the standing plan was kept; null: there was none. */
  readonly standing: StandingPlan | null;
  /** The same jobs placed each in its first fair window, for comparison, none under a condition; null: it places nothing. */
  readonly firstFair: { readonly allDoneProbability: number | null; readonly plannedJobIds: readonly string[] } | null;
  readonly solver: {
    /** No plan is better on the scenarios searched: neither in jobs, nor in probability, nor in cost. */
    readonly optimal: boolean;
    /** By so much joint probability (0..1) some other plan of as many jobs may be better; null: nothing is proven. */
    readonly gap: number | null;
    /** Share of the cost that some other plan, equal in jobs and probability, may save (0..1); null: nothing is proven. */
    readonly costGapShare: number | null;
    readonly labels: number;
  };
  /** How awake the watchkeeper is through the plan, and what its sleep is for. */
  readonly watch: PlannedWatch;
  readonly cautions: readonly string[];
}

/** What became of the plan that stood. */
export interface StandingPlan {
  readonly kept: boolean;
  readonly text: string;
  /** Work of it that should have begun by now and is not done, or half done: it is placed anew. */
  readonly overdue: readonly {
    readonly jobId: string;
    readonly startUtc: string;
    readonly halfDone: boolean;
    readonly text: string;
  }[];
}

export interface PlannedWatch {
  /** The lines that bar work. */
  readonly gates: WatchGates;
  /** Every full hour from the beginning of the plan to the end of its last entry. */
  readonly hours: readonly WatchHour[];
  readonly sleeps: readonly PlannedSleep[];
  /** 02–06 on the body clock: hard work waits. */
  readonly lowHours: readonly { readonly startUtc: string; readonly endUtc: string }[];
  /** Each 24 h from the beginning of the plan, and its last 24 h. */
  readonly days: readonly SleepDay[];
  /**
   * Work at whose end the prior sleep rule is not kept, where it does not bar it: for information. Works of which the same
   * is to be said stand together, under the first.
   */
  readonly priorSleep: readonly { readonly jobId: string; readonly startUtc: string; readonly text: string }[];
  /** Figures of rest rules, for information: they bind nobody on a private craft. */
  readonly restRules: readonly PlannedRestRule[];
  /** What the rest rules are for, and COLREG Rule 5, in plain words. */
  readonly notes: readonly string[];
}

/** Lines the watchkeeper must be on the right side of. */
export interface WatchGates {
  /** For heavy, aloft and overside work. */
  readonly hardLeastAlertnessPoints: number;
  /** For other work outside. */
  readonly deckLeastAlertnessPoints: number;
  /** For anything at all. */
  readonly anyLeastAlertnessPoints: number;
  readonly hardMostLapses: number;
  readonly deckMostLapses: number;
}

export interface WatchHour {
  readonly timeUtc: string;
  readonly bodyClockH: number;
  readonly asleep: boolean;
  /** S + C + U; 14 high, 7 the risk line. */
  readonly alertness: number;
  /** Mean sleepiness and that of nine in ten, model 5c. */
  readonly kss: number;
  readonly kssP90: number;
  /** Unified model; below zero for someone well rested. */
  readonly lapses: number;
}

export interface PlannedSleep {
  readonly startUtc: string;
  readonly endUtc: string;
  readonly lengthMin: number;
  /** Minutes beyond the look-out interval in which nobody looks. */
  readonly beyondLookoutMin: number;
  /** How long a ship just out of sight needs to be close, where the sleep begins; see `lookoutLimitedBy`. */
  readonly lookoutIntervalMin: number;
  readonly lookoutLimitedBy: 'visibility' | 'light' | 'horizon' | 'cap';
  /** false: the forecast does not hold visibility there, and an ordinary haze is taken. */
  readonly isVisibilityKnown: boolean;
  readonly alertnessBefore: number;
  readonly alertnessAfter: number;
  /** The work it is for; null: none follows that it changes. */
  readonly forJobId: string | null;
  /** What it buys, as a sentence with the amount. */
  readonly buys: string;
}

export interface SleepDay {
  readonly fromUtc: string;
  readonly toUtc: string;
  /** Time in the bunk × efficiency. */
  readonly sleptH: number;
  readonly wantedH: number;
  readonly leastH: number;
}

export interface PlannedRestRule {
  readonly ruleId: string;
  readonly text: string;
  readonly observed: number | null;
  readonly required: number;
  readonly unit: string;
  /** null: the record is too short to say. */
  readonly met: boolean | null;
}

/** One time factor of an entry, averaged over its steps by their share of the work. */
export interface EntryFactor {
  /** `weather`, `dark`, `cold`, `gloves`, `heat`, `look-out`, `tired`, `own-pace`. */
  readonly id: 'weather' | FactorId;
  readonly name: string;
  readonly ratio: number;
  /** Where the coefficient comes from. */
  readonly basis: 'published' | 'common practice' | 'our choice' | 'your own';
  /** The figures it was made from. */
  readonly text: string;
}

/** The earliest start at which the weather would have done, and the watchkeeper would not. */
export interface SleepFirst {
  readonly weatherFromUtc: string;
  readonly findings: readonly PublishedFinding[];
  /** Sleep the plan places between that start and its own. */
  readonly sleepH: number;
  readonly text: string;
}

export interface PlanEntry {
  readonly startUtc: string;
  readonly endUtc: string;
  readonly kind: 'work' | 'sleep' | 'lookout' | 'wait';
  readonly jobId: string | null;
  readonly stepIds: readonly string[];
  readonly handling: string | null;
  readonly sailState: string;
  readonly place: 'below' | 'cockpit' | 'deck' | 'foredeck' | 'aloft' | 'overside' | null;
  readonly lat: number;
  readonly lon: number;
  readonly deckWindKn: { readonly p10: number; readonly p50: number; readonly p90: number } | null;
  readonly light: 'day' | 'civil' | 'nautical' | 'night';
  readonly kssStart: number;
  readonly kssEnd: number;
  /** Minutes before the start to settle the boat under the handling. */
  readonly settleMin: number;
  /** Why work takes longer than its time at pace 1; factors of 1 are left out. Empty: no work. */
  readonly factors: readonly EntryFactor[];
  /** All of them together; null: no work. */
  readonly factorsTogetherRatio: number | null;
  /** Rest the body needs after it before heavy work of another job. */
  readonly restAfterMin: number;
}

export interface PlannedJob {
  readonly jobId: string;
  readonly name: string;
  readonly status: 'planned' | 'conditional' | 'unplanned' | 'done';
  readonly startUtc: string | null;
  readonly endUtc: string | null;
  readonly handling: string | null;
  /** Start times for which this job's first block stays fair, around the planned one. */
  readonly startBetween: { readonly firstUtc: string; readonly lastUtc: string } | null;
  readonly probability: number | null;
  /** Least room over the reference period, in standard deviations of the forecast error. */
  readonly marginSd: number | null;
  readonly bindingLimit: BindingLimit | null;
  readonly unknownLimits: readonly string[];
  readonly standardCriterion: { readonly alphaRatio: number; readonly met: boolean; readonly text: string } | null;
  /** Sentences in the sailor's words, with the number that decides. */
  readonly why: string | null;
  readonly whyNotEarlier: string | null;
  /** null: the weather does not come before the watchkeeper is ready for it. */
  readonly sleepFirst: SleepFirst | null;
  /** The same as data: earlier starts in stretches, the latest first, each with what decides against it. */
  readonly notEarlier: readonly NotEarlier[];
  /** Share of draws (0..1) in which it is done inside its limits when steps take as long as they take. */
  readonly doneInsideLimitsProbability: number | null;
  /** Share in which some unbroken piece of it is caught in the middle by a broken limit. */
  readonly coreInterruptedProbability: number | null;
  readonly fallback: {
    readonly startUtc: string;
    readonly lastStartUtc: string;
    readonly probability: number;
    readonly handling: string;
  } | null;
  readonly decideByUtc: string | null;
  /** The plan that is left when the job's window passes unused; null: not for today to decide, or the search was stopped. */
  readonly fallbackPlan: FallbackPlan | null;
  readonly goCheck: readonly string[];
  /** The figures of its go check with what is expected of them at the planned start; null: it is not planned. */
  readonly startCheck: StartCheck | null;
  readonly nearestMiss: NearestMiss | null;
  /** What would open a window for it, each searched anew; the smallest change first. Empty too when the search was stopped. */
  readonly wouldBuy: readonly WouldBuy[];
}

export interface NotEarlier {
  readonly firstStartUtc: string;
  readonly lastStartUtc: string;
  /** null: nothing stands against these starts by themselves. */
  readonly finding: PublishedFinding | null;
}

/** A finding with its instant as text. */
export interface PublishedFinding extends Omit<Finding, 'atEpochMs'> {
  readonly atUtc: string | null;
}

export interface FallbackPlan {
  readonly decideByUtc: string;
  /** On the scenarios searched; null: nothing is left to do. */
  readonly allDoneProbability: number | null;
  readonly entries: readonly { readonly jobId: string; readonly startUtc: string; readonly handling: string }[];
  readonly leavesOutJobIds: readonly string[];
  readonly text: string;
}

export interface WouldBuy {
  readonly text: string;
  readonly startUtc: string;
  readonly lastStartUtc: string;
  readonly handling: string;
  readonly probability: number;
}

export interface BindingLimit {
  /** `deck-wind`, `deck-gust`, `sea-height`, `steepness`, `handling-wind`, `handling-sea`, `daylight`, `rain`, `air-temperature`, `sea-temperature`, `steadying-wind`, `highest-wave`. */
  readonly limit: string;
  readonly observed: number;
  readonly required: number;
  readonly unit: string;
  /** Room on the safe side, in `unit`; negative: beyond the limit. */
  readonly margin: number;
  readonly atUtc: string;
}

/** Why a job is not planned, and what comes nearest. */
export interface NearestMiss {
  /** `weather`, `light`, `alertness`, `materials`, `precedence`, `sail-state`, `horizon`, `joint`, `slowed`, `orders`. */
  readonly reason: string;
  readonly startUtc: string | null;
  readonly handling: string | null;
  readonly probability: number | null;
  readonly bindingLimit: BindingLimit | null;
  /** A sentence with the amount. */
  readonly text: string;
  /** What would buy it. */
  readonly wouldHelp: string;
}
