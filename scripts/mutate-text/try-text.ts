/** Mutants of a format, tried one after the other in this process, with what they cost. */
import { type Cost, costed } from '../mutants/cost.ts';
import type { MutantAt } from '../mutants/draws.ts';
import type { Tally } from '../mutants/tally.ts';
import { type IndexRange, tryRange } from '../mutants/try-range.ts';
import type { Attempt } from './attempt.ts';
import type { Depth, TextFormat } from './format.ts';
import { type Mutant, mutantOf } from './mutant.ts';
import { OCTET_DAMAGES } from './octet-damages.ts';

/** One in so many is written again and read back, one in so many used. */
const AGAIN_ONE_IN = 8;
const USED_ONE_IN = 200;

const depthOf = (index: number): Depth =>
  index % USED_ONE_IN === 0 ? 'used' : index % AGAIN_ONE_IN === 0 ? 'again' : 'read';

export interface Trial extends Mutant, Attempt, Cost {}

export function tryText(format: TextFormat, at: MutantAt): Trial {
  const { samples, own } = format;
  const made = mutantOf({ samples, own, plain: OCTET_DAMAGES }, at);
  return { ...made, ...costed(() => attemptOf(format, made.octets, depthOf(at.index))) };
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

/** Of which inputs. */
export interface TextRange extends IndexRange {
  readonly seed: number;
}

/** `started` hears of each index before it is tried. */
export const tryTexts = (
  format: TextFormat,
  range: TextRange,
  started: (index: number) => void = () => undefined,
): Tally =>
  tryRange(range, (index) => {
    started(index);
    return tryText(format, { seed: range.seed, index });
  });
