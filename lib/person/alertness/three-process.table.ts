import { constantsFrom, type Constant } from '../constant.ts';

const FIPS_NOTE = 'default of the package, after Ingre et al. 2014';
const MODEL_5C_NOTE = 'table 1, model 5c, as given by two public re-implementations';

const fips = constantsFrom('FIPS', FIPS_NOTE);
const model5c = constantsFrom('INGRE_2014', MODEL_5C_NOTE);
const points = (x: number): Constant => fips(x, 'alertness points');
const perHour = (x: number): Constant => fips(x, '1/h');
const hour = (x: number): Constant => fips(x, 'h after body-clock midnight');
const kss = (x: number): Constant => model5c(x, 'KSS points');

/** Constants of the three-process model of alertness (scale about 1 … 21; 3 extreme sleepiness, 7 risk line, 14 high). */
export const THREE_PROCESS = {
  /** `la`: what S decays to while awake. */
  lowerAsymptote: points(2.4),
  /** `ha`: what S recovers to while asleep. */
  upperAsymptote: points(14.3),
  /** `d`: decay while awake. */
  awakeRate: perHour(-0.0353),
  /** `g`: recovery while asleep, ln((14.3 − 14) / (14.3 − 7.96)) / 8. */
  asleepRate: perHour(Math.log((14.3 - 14) / (14.3 - 7.96)) / 8),
  /** `bl`: below it recovery is linear (the brake). */
  brakeLevel: points(12.2),
  circadianMean: points(0),
  circadianAmplitude: points(2.5),
  /** `p`: hour of the circadian maximum. */
  acrophase: hour(16.8),
  ultradianMean: points(-0.5),
  ultradianAmplitude: points(0.5),
  inertiaAtWaking: points(-5.72),
  inertiaRate: perHour(-1.51),
  /** `S0`: S where the record begins. */
  startS: points(7.96),
  /** S + C + U where the record begins, the other published start value. */
  startAlertness: model5c(8.38, 'alertness points'),
} as const satisfies Readonly<Record<string, Constant>>;

/** Lines from alertness to the Karolinska Sleepiness Scale (1 extremely alert … 9 fighting sleep). */
export const SLEEPINESS_SCALE = {
  /** KSS = intercept + slope · (S + C + U). */
  intercept: kss(9.68),
  slope: model5c(-0.46, 'KSS points per alertness point'),
  /** Added to the mean line for the 75th and 90th percentile. */
  p75: kss(0.57),
  p90: kss(1.07),
  /** KSS = intercept + slope · (S + C + U + W). */
  interceptWithInertia: fips(10.6, 'KSS points'),
  slopeWithInertia: fips(-0.6, 'KSS points per alertness point'),
  /** P(KSS > k) is a logistic curve in alertness: this slope, the cut points K_k below, and an offset per percentile. */
  logisticSlope: model5c(-0.599, 'logit per alertness point'),
  logisticP75: model5c(0.74, 'logit'),
  logisticP90: model5c(1.41, 'logit'),
} as const satisfies Readonly<Record<string, Constant>>;

/** K_1 … K_8 [logit] of P(KSS > k), same source as the model 5c line. */
export const LOGISTIC_CUT_POINTS = [-10.99, -8.95, -7.67, -6.66, -5.64, -4.3, -3.05, -0.58] as const;
