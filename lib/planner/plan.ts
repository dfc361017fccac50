import type { Finding } from '../reasons/index.ts';

/** The plan as it is published (JSON of `slatch plan`); keys are documented field by field in DEVELOPERS.md. */

export interface Plan {
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
  readonly standing: { readonly kept: boolean; readonly text: string } | null;
  /** The same jobs placed each in its first fair window, for comparison; null when it places nothing. */
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
  readonly cautions: readonly string[];
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
  /** `weather`, `light`, `alertness`, `materials`, `precedence`, `sail-state`, `horizon`, `joint`. */
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
