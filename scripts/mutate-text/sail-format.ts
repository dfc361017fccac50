import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { assessDamage, parseDamageFile, reportTexts } from '../../lib/sail/index.ts';
import { cutPlan, cutSheet, publishedCutPlan, readCutFile } from '../../lib/stock/index.ts';
import { accepted, type Attempt, refused, unfinishedNumber } from './attempt.ts';
import { decoded, type Depth, type TextFormat } from './format.ts';
import { jsonDamages } from './json-damages.ts';

const GIANT_ONE_IN = 60;
/** Cutting takes a while for long lists; those are for its own bench. */
const MOST_PIECES_COUNT = 12;

const sampleText = (name: string): string =>
  readFileSync(resolve(import.meta.dirname, '../../sample-forecasts', name), 'utf8');

/** Sails with their damage, and lists of battens to cut. */
export const sailFormat = (): TextFormat => ({
  samples: [
    { name: 'sail', text: sampleText('demo-sail.json') },
    { name: 'battens', text: sampleText('demo-battens.json') },
  ],
  own: jsonDamages(GIANT_ONE_IN),
  attempt: (octets, depth) => {
    const text = decoded(octets);
    const [sail, battens] = [sailAttempt(text), battensAttempt(text, depth)];
    const isAccepted = [sail, battens].some(({ codes }) => codes.includes('accepted'));
    const codes = isAccepted ? ['accepted'] : [...new Set([...sail.codes, ...battens.codes])];
    return { codes, fault: sail.fault ?? battens.fault };
  },
});

function sailAttempt(text: string): Attempt {
  const read = parseDamageFile(text, 'mutant.json');
  if (!read.ok) return refused(read.problems, text);
  const report = assessDamage(read.value, 'mutant.json');
  if (!report.ok) return refused(report.problems, text);
  const words = text.includes('NaN') || text.includes('Infinity') ? '' : reportTexts(report.value).flat().join('\n');
  const strange = /undefined|NaN|Infinity|\[object /.exec(words);
  return accepted(
    strange === null ? null : `the report says ${words.slice(Math.max(0, strange.index - 80), strange.index + 20)}`,
  );
}

function battensAttempt(text: string, depth: Depth): Attempt {
  const read = readCutFile(text, 'mutant.json');
  if (!read.ok) return refused(read.problems, text);
  const pieceCount = read.value.pieces.reduce((sum, { count }) => sum + count, 0);
  if (depth === 'read' || pieceCount > MOST_PIECES_COUNT) return accepted(unfinishedNumber(read.value));
  const plan = cutPlan(read.value);
  cutSheet(plan);
  return accepted(unfinishedNumber(publishedCutPlan(plan)));
}
