import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import {
  effectiveEntries,
  entryWords,
  formatLogEntry,
  logCsv,
  logProblems,
  passageAfterLog,
  readLog,
} from '../../lib/log/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { MS_PER_H } from '../../lib/time/index.ts';
import { accepted, type Attempt, differenceOf, refused } from './attempt.ts';
import { decoded, type Depth, type TextFormat } from './format.ts';
import { jsonDamages } from './json-damages.ts';
import { littlePassage } from './little-world.ts';
import { type Damaging, ofText, type WeighedDamage } from './mutant.ts';

const GIANT_ONE_IN = 60;

export function logFormat(): TextFormat {
  const demo = readFileSync(resolve(import.meta.dirname, '../../sample-forecasts/demo-log.jsonl'), 'utf8');
  const passage = littlePassage();
  return {
    samples: [{ name: 'demo log', text: demo }],
    own: [...jsonDamages(GIANT_ONE_IN).map(inALine), ...LINE_DAMAGES],
    attempt: (octets, depth) => logAttempt(octets, depth, passage),
  };
}

/** The damage done to one line of the log. */
const inALine = ({ name, weight, damage }: WeighedDamage): WeighedDamage => ({
  name,
  weight,
  damage: ofText((text, chance) => {
    const lines = text.split('\n');
    const at = chance.below(lines.length);
    return lines.map((line, i) => (i === at ? damage(Buffer.from(line), chance).toString() : line)).join('\n');
  }),
});

const onLines = (
  name: string,
  weight: number,
  change: (lines: string[], chance: Damaging) => string[],
): WeighedDamage => ({ name, weight, damage: ofText((text, chance) => change(text.split('\n'), chance).join('\n')) });

const LINE_DAMAGES: readonly WeighedDamage[] = [
  onLines('lines in another order', 4, (lines, { below }) => {
    const at = below(lines.length);
    return [...lines.slice(at, -1), ...lines.slice(0, at), ''];
  }),
  onLines('a line many times', 3, (lines, { below, pick, oneIn }) => {
    const line = lines[below(lines.length)] ?? '';
    return [...Array.from({ length: oneIn(20) ? 5000 : pick([1, 2, 40]) }, () => line), ...lines];
  }),
  onLines('a line taken out', 3, (lines, { below }) => lines.toSpliced(below(lines.length), 1)),
  onLines('a correction of something', 6, (lines, { below, pick }) => {
    const by = pick(['null', ...lines.filter((line) => line !== ''), '{"kind":"correction","corrects":1,"by":null}']);
    const corrects = pick([0, 1, 2, lines.length, 1e9, -1, 1.5]);
    const entry = `{"kind":"correction","atUtc":"2026-05-27T20:00Z","corrects":${corrects},"by":${by}}`;
    return lines.toSpliced(below(lines.length), 0, entry);
  }),
];

function logAttempt(octets: Uint8Array, depth: Depth, passage: Passage): Attempt {
  const text = decoded(octets);
  const { entries, problems, torn } = readLog(text, 'mutant.jsonl');
  const told = refused(torn === null ? problems : [...problems, torn.problem], text);
  const codes = entries.length === 0 ? told.codes : [...told.codes, 'accepted'];
  if (told.fault !== null) return { codes, fault: told.fault };
  if (depth === 'read') return { codes, fault: null };
  logCsv(entries);
  for (const { entry } of entries.slice(0, 20)) entryWords(entry);
  const strange = refused(logProblems(entries, passage.jobs).slice(0, 500), text);
  if (strange.fault !== null) return { codes, fault: strange.fault };
  effectiveEntries(entries);
  const again = readLog(`${entries.map(({ entry }) => formatLogEntry(entry)).join('\n')}\n`, 'again.jsonl');
  if (entries.length > 0 && again.problems[0] !== undefined)
    return { codes, fault: `written again it is refused: ${again.problems[0].where} ${again.problems[0].what}` };
  const difference = entries.length === 0 ? null : differenceOf(bare(entries), bare(again.entries));
  if (depth === 'used' && difference === null) {
    const nowEpochMs = passage.start.epochMs + 6 * MS_PER_H;
    passageAfterLog(passage, entries, nowEpochMs);
  }
  return { codes, fault: difference ?? accepted(null).fault };
}

const bare = (entries: readonly { readonly entry: unknown }[]): unknown[] => entries.map(({ entry }) => entry);
