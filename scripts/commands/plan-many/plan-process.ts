/** `slatch plan --json` in a process of its own. */
import { fileURLToPath } from 'node:url';
import type { PlanSettings } from './made-of.ts';
import { type MeasuredProcess, runMeasured } from './measured-process.ts';

/** How the process ended. */
export interface EndedProcess extends Pick<MeasuredProcess, 'code' | 'signal' | 'tookMs' | 'usage'> {
  /** Standard output. */
  readonly plan: Buffer;
  /** Standard error, line by line, without progress. */
  readonly said: readonly string[];
}

const SLATCH = fileURLToPath(new URL('../../slatch.mjs', import.meta.url));

/** Plans one passage, as `runMeasured`. */
export async function planInProcess(file: string, settings: PlanSettings, signal: AbortSignal): Promise<EndedProcess> {
  const program = [SLATCH, 'plan', ...settingArguments(settings), '--json', '--', file];
  const { out, err, ...ended } = await runMeasured(program, signal);
  return { ...ended, plan: out, said: linesOf(err) };
}

const settingArguments = ({ nowUtc, untilUtc, seed }: PlanSettings): string[] =>
  Object.entries({ now: nowUtc, until: untilUtc, seed }).flatMap(([name, value]) =>
    value === null ? [] : [`--${name}`, value],
  );

/** What `slatch plan` says of its own progress. */
const PROGRESS = /^(planned in|reading the forecast:) /;

const linesOf = (text: string): string[] =>
  text.split('\n').filter((line) => line.trim() !== '' && !PROGRESS.test(line));
