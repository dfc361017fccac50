import { constantsFrom, type Constant } from '../constant.ts';

const REMEMBERED = 'from memory, not verified';
const graham = constantsFrom('GRAHAM_1990', REMEMBERED);
const iso = constantsFrom('ISO_2631_1', REMEMBERED);
const stanag = constantsFrom('STANAG_4154', REMEMBERED);

/** Figures of the motion formulas; all may be edited. */
export const MOTION = {
  gravity: { value: 9.81, unit: 'm/s²', sourceId: null, note: 'as rounded in the worked values' },
  /** Sideways force over weight at which one who stands must grab hold. */
  tipsSideways: graham(0.25, 'ratio'),
  tipsForeAndAft: graham(0.17, 'ratio'),
  /** Chances a minute, both sides, for a period of 1 s. */
  chances: graham(120, 's/min'),
  /** Share of people who vomit for each unit of the dose. */
  sickness: iso(1 / 300, '1/(m/s^1.5)'),
} as const satisfies Readonly<Record<string, Constant>>;

/** What motion a kind of work bears: root mean squares. */
export interface MotionCriterion {
  readonly work: 'light-manual' | 'heavy-manual' | 'head-work' | 'ferry-passengers' | 'cruise-passengers';
  /** In multiples of gravity. */
  readonly verticalRmsG: number;
  readonly lateralRmsG: number;
  readonly rollRmsDeg: number;
}

/**
 * Yardsticks only, from memory and not verified: set for crews who stand on ships, upright. A yacht heels, and who works
 * on her sits, kneels or is tied on.
 *
 * @see sources.NORDFORSK_1987
 */
export const MOTION_CRITERIA: readonly MotionCriterion[] = [
  { work: 'light-manual', verticalRmsG: 0.2, lateralRmsG: 0.1, rollRmsDeg: 6 },
  { work: 'heavy-manual', verticalRmsG: 0.15, lateralRmsG: 0.07, rollRmsDeg: 4 },
  { work: 'head-work', verticalRmsG: 0.1, lateralRmsG: 0.05, rollRmsDeg: 3 },
  { work: 'ferry-passengers', verticalRmsG: 0.05, lateralRmsG: 0.04, rollRmsDeg: 2.5 },
  { work: 'cruise-passengers', verticalRmsG: 0.02, lateralRmsG: 0.03, rollRmsDeg: 2 },
];

/** Limits for the crew of a naval ship. */
export const CREW_MOTION = {
  /** Share of the crew seasick, in so long. */
  sick: stanag(0.2, 'ratio'),
  sickWithin: stanag(4, 'h'),
  interruptions: stanag(1, '1/min'),
  rollRms: stanag(4, 'deg'),
  pitchRms: stanag(1.5, 'deg'),
  verticalRms: stanag(0.2, 'g'),
  lateralRms: stanag(0.1, 'g'),
} as const satisfies Readonly<Record<string, Constant>>;

export type InterruptionRisk = 'possible' | 'probable' | 'serious' | 'severe' | 'extreme';

/** Rarest first. @see sources.GRAHAM_1990 (from memory, not verified) */
export const INTERRUPTION_RISKS: readonly { readonly fromPerMin: number; readonly risk: InterruptionRisk }[] = [
  { fromPerMin: 0.1, risk: 'possible' },
  { fromPerMin: 0.5, risk: 'probable' },
  { fromPerMin: 1.5, risk: 'serious' },
  { fromPerMin: 3, risk: 'severe' },
  { fromPerMin: 5, risk: 'extreme' },
];
