/** Mutants of a format, tried one after the other in this process, with what they cost. */
import { withPeakMemory } from '../mutate-grib/peak-memory.ts';
import { EMPTY_TALLY, type Failure, greater, type Tally } from '../mutate-grib/tally.ts';
import type { Attempt } from './attempt.ts';
import type { Depth, TextFormat } from './format.ts';
import { type Mutant, mutantOf } from './mutant.ts';
import { OCTET_DAMAGES } from './octet-damages.ts';

/** Longest an input may take [ms of processor time], most memory it may take [octets]. */
const MOST_MS = 2000;
const MOST_GROWN_OCTETS = 512 * 2 ** 20;
/** One in so many is written again and read back, one in so many used. */
const AGAIN_ONE_IN = 8;
const USED_ONE_IN = 200;

const depthOf = (index: number): Depth =>
  index % USED_ONE_IN === 0 ? 'used' : index % AGAIN_ONE_IN === 0 ? 'again' : 'read';

export interface Trial extends Mutant, Attempt {
  readonly tookMs: number;
  readonly grownOctets: number;
}

export interface At {
  readonly seed: number;
  readonly index: number;
}

export function tryText(format: TextFormat, at: At): Trial {
  const { samples, own } = format;
  const made = mutantOf({ samples, own, plain: OCTET_DAMAGES }, at);
  return { ...made, ...measured(() => attemptOf(format, made.octets, depthOf(at.index))) };
}

/** What is wrong with samples as they are, by name: they must be accepted, or nothing is learned from damaging them. */
export const sampleFaults = (format: TextFormat): readonly string[] =>
  [...new Map(format.samples.map(({ name, text }) => [text, name]))].flatMap(([text, name]) => {
    const { fault, codes } = attemptOf(format, Buffer.from(text, 'utf8'), 'used');
    return fault === null ? [] : [`${name}: ${fault} (${codes.join(', ')})`];
  });

/** Never throws: what is thrown is a fault. */
function attemptOf(format: TextFormat, octets: Uint8Array, depth: Depth): Attempt {
  try {
    return format.attempt(octets, depth);
  } catch (error) {
    const text = error instanceof Error ? (error.stack ?? error.message) : String(error);
    return { codes: ['thrown'], fault: `thrown: ${text.split('\n').slice(0, 6).join(' | ').slice(0, 1500)}` };
  }
}

function measured(work: () => Attempt): Attempt & { readonly tookMs: number; readonly grownOctets: number } {
  const before = process.cpuUsage();
  const { result, grownOctets } = withPeakMemory(work);
  const { user, system } = process.cpuUsage(before);
  const tookMs = (user + system) / 1000;
  return { ...result, fault: result.fault ?? costFault(tookMs, grownOctets), tookMs, grownOctets };
}

function costFault(tookMs: number, grownOctets: number): string | null {
  if (tookMs > MOST_MS) return `took ${tookMs.toFixed(0)} ms`;
  return grownOctets > MOST_GROWN_OCTETS ? `grew by ${(grownOctets / 2 ** 20).toFixed(0)} MiB` : null;
}

/** Inputs `fromIndex`, `fromIndex + stepCount` … below `toIndex`. */
export interface TextRange {
  readonly seed: number;
  readonly fromIndex: number;
  readonly toIndex: number;
  readonly stepCount: number;
  /** Inputs known to kill the process. */
  readonly skip: readonly number[];
}

/** `started` hears of each index before it is tried. */
export function tryTexts(
  format: TextFormat,
  range: TextRange,
  started: (index: number) => void = () => undefined,
): Tally {
  const codes = new Map<string, number>();
  const failures: Failure[] = [];
  let { triedCount, slowest, largest } = EMPTY_TALLY;
  for (let index = range.fromIndex; index < range.toIndex; index += range.stepCount) {
    if (range.skip.includes(index)) continue;
    started(index);
    const trial = tryText(format, { seed: range.seed, index });
    triedCount += 1;
    for (const code of trial.codes) codes.set(code, (codes.get(code) ?? 0) + 1);
    if (trial.fault !== null) failures.push({ index, story: trial.story, fault: trial.fault });
    slowest = greater(slowest, { index, amount: trial.tookMs });
    if (trial.grownOctets > 0) largest = greater(largest, { index, amount: trial.grownOctets });
  }
  return { triedCount, codes: Object.fromEntries(codes), failures, slowest, largest };
}
