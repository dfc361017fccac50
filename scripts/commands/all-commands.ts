import { alertnessCommand } from './alertness.ts';
import { checkCommand } from './check.ts';
import type { Command } from './command.ts';
import { compareCommand } from './compare.ts';
import { forecastCommand } from './forecast.ts';
import { planCommand } from './plan.ts';
import { windowsCommand } from './windows.ts';

/** In the order of the overall help. */
export const allCommands: readonly Command[] = [
  planCommand,
  checkCommand,
  compareCommand,
  windowsCommand,
  forecastCommand,
  alertnessCommand,
];
