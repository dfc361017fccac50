import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { gpxFileOf, parsePassage, readPassageFile } from '../../lib/passage/index.ts';
import { accepted, type Attempt, differenceOf, refused, unfinishedNumber } from './attempt.ts';
import { decoded, type Depth, type TextFormat } from './format.ts';
import { jsonDamages } from './json-damages.ts';
import { littlePassageText, windowsOf } from './little-world.ts';

const GIANT_ONE_IN = 60;
const WHERE = 'mutant.json';

const demoText = (): string =>
  readFileSync(resolve(import.meta.dirname, '../../sample-forecasts/demo-passage.json'), 'utf8');

export function passageFormat(): TextFormat {
  const little = { name: 'little passage', text: littlePassageText() };
  return {
    // The demo takes five times as long: it comes less often.
    samples: [...Array.from({ length: 23 }, () => little), { name: 'demo passage', text: demoText() }],
    own: jsonDamages(GIANT_ONE_IN),
    attempt: passageAttempt,
  };
}

function passageAttempt(octets: Uint8Array, depth: Depth): Attempt {
  const text = decoded(octets);
  const read = parsePassage(text, WHERE);
  if (!read.ok) return refused(read.problems, text);
  if (depth === 'read') return accepted(unfinishedNumber(read.value));
  gpxFileOf(text);
  const file = readPassageFile(text, WHERE);
  if (!file.ok) return accepted(`read as a passage, refused as a file: ${file.problems[0].what}`);
  const again = parsePassage(JSON.stringify(file.value, null, 2), WHERE);
  if (!again.ok) return accepted(`written again it is refused: ${again.problems[0].where} ${again.problems[0].what}`);
  const fault = differenceOf(read.value, again.value) ?? unfinishedNumber(read.value);
  if (fault !== null || depth === 'again') return accepted(fault);
  const windows = windowsOf(read.value);
  return windows.ok ? { codes: ['windows'], fault: null } : refused(windows.problems, text);
}
