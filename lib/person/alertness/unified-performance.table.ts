import { constantsFrom, type Constant } from '../constant.ts';

const fips = constantsFrom(
  'RAMAKRISHNAN_2016',
  'default of the FIPS R package, R/simulation_unifiedfatiguemodel.R, after this paper',
);

/** Constants of the unified model of performance: lapses in a ten-minute reaction test. */
export const UNIFIED_PERFORMANCE = {
  /** `U0`: what S and L rise to while awake. */
  upperAsymptote: fips(24.12, 'lapses'),
  /** `tau_w`, `tau_s`, `tau_la`: of S awake, S asleep, and of the debt L. */
  awakeTimeConstant: fips(40, 'h'),
  asleepTimeConstant: fips(1, 'h'),
  debtTimeConstant: fips(97.44, 'h'),
  /** `kappa`: of C in the lapses. */
  circadianAmplitude: fips(4.13, 'lapses'),
  /** `phi`: hours the sum of sines runs ahead of the body clock; its origin is doubted by the authors of the package. */
  phase: fips(2.02, 'h'),
  inertiaAtWaking: fips(1.14, 'ratio'),
  inertiaRate: fips(-0.46, '1/h'),
  /** `S0`, `L0`: where the record begins. */
  startS: fips(0, 'lapses'),
  startDebt: fips(0, 'lapses'),
} as const satisfies Readonly<Record<string, Constant>>;

/** `a_1 … a_5`: sines of 24, 12, 8, 6 and 4.8 h; same source. */
export const UNIFIED_HARMONICS = [0.97, 0.22, 0.07, 0.03, 0.0001] as const;
