import type { Command, ListedCommand } from './command.ts';

/** In the order of the overall help. What a command needs is loaded when it runs: that takes a second for some. */
export const allCommands: readonly ListedCommand[] = [
  {
    name: 'plan',
    summary: 'the joint plan of a passage, with its reasons',
    run: whenLoaded(async () => (await import('./plan.ts')).planCommand),
  },
  {
    name: 'check',
    summary: 'judges a plan made by hand: what speaks against it, and how sure it is',
    run: whenLoaded(async () => (await import('./check.ts')).checkCommand),
  },
  {
    name: 'compare',
    summary: 'what changed between two plans',
    run: whenLoaded(async () => (await import('./compare.ts')).compareCommand),
  },
  {
    name: 'windows',
    summary: 'all start times of every job that stay inside its limits, and nearest misses',
    run: whenLoaded(async () => (await import('./windows.ts')).windowsCommand),
  },
  {
    name: 'forecast',
    summary: 'what forecast files hold: list, values, at',
    run: whenLoaded(async () => (await import('./forecast.ts')).forecastCommand),
  },
  {
    name: 'alertness',
    summary: 'how awake after which sleeps: S, C, U, W, alertness, KSS per time',
    run: whenLoaded(async () => (await import('./alertness.ts')).alertnessCommand),
  },
];

function whenLoaded(load: () => Promise<Command>): Command['run'] {
  return async (args, io) => (await load()).run(args, io);
}
