import { constantsFrom, type Constant } from '../constant.ts';

const skeldonDijk = constantsFrom('SKELDON_DIJK_2025', 'caption of figure 1');

/** Constants of the two-process model. */
export const TWO_PROCESS = {
  /** `chi_w`, `chi_s`. */
  awakeTimeConstant: skeldonDijk(18.2, 'h'),
  asleepTimeConstant: skeldonDijk(4.2, 'h'),
  /** `H+`, `H-`: mean levels at which sleep begins and ends. */
  upperThreshold: skeldonDijk(0.67, 'ratio'),
  lowerThreshold: skeldonDijk(0.17, 'ratio'),
} as const satisfies Readonly<Record<string, Constant>>;
