/**
 * How far probabilities found from a digest lie from those of the forecast it was made of: drawn passages are planned from
 * the digest, and the plan is judged on the same draws with either.
 *
 *     npm run study-digest -- [--passages N] [--members N] [--hours N] [--characters N] [--seed S] [--json FILE]
 *
 * Defaults: 56 passages, 20 members, 48 h in 440 characters (with frames and seal two parts of 270), seed 1. Exit code 1
 * when the mean difference exceeds 0.07, or more than one in twenty differ by more than 0.15.
 */
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { type DigestRow, digestRow } from './studies/digest-study.ts';
import { readOptions, wholeOption } from './studies/whole-option.ts';

const MOST_MEAN = 0.07;
const MOST_COMMON = 0.15;
const COMMON_SHARE = 0.95;

interface Asked {
  readonly passageCount: number;
  readonly seed: number;
  readonly memberCount: number;
  readonly aheadH: number;
  readonly mostCharacterCount: number;
  readonly jsonPath: string | undefined;
}

function askedOnCommandLine(): Asked {
  const { values } = parseArgs({
    options: {
      passages: { type: 'string', default: '56' },
      members: { type: 'string', default: '20' },
      hours: { type: 'string', default: '48' },
      characters: { type: 'string', default: '440' },
      seed: { type: 'string', default: '1' },
      json: { type: 'string' },
    },
  });
  return {
    passageCount: wholeOption('passages', values.passages),
    seed: wholeOption('seed', values.seed),
    memberCount: wholeOption('members', values.members),
    aheadH: wholeOption('hours', values.hours),
    mostCharacterCount: wholeOption('characters', values.characters),
    jsonPath: values.json,
  };
}

interface Differences {
  readonly count: number;
  readonly mean: number;
  readonly commonMost: number;
  readonly most: number;
}

function differences(pairs: readonly (readonly [number, number])[]): Differences {
  const sizes = pairs.map(([a, b]) => Math.abs(a - b)).toSorted((a, b) => a - b);
  const mean = sizes.reduce((sum, size) => sum + size, 0) / Math.max(1, sizes.length);
  const common = sizes[Math.max(0, Math.ceil(COMMON_SHARE * sizes.length) - 1)] ?? Number.NaN;
  return { count: sizes.length, mean, commonMost: common, most: sizes.at(-1) ?? Number.NaN };
}

const line = (name: string, of: Differences): string =>
  `${name.padEnd(22)} n ${of.count}  mean ${of.mean.toFixed(3)}  95 % within ${of.commonMost.toFixed(3)}  most ${of.most.toFixed(3)}`;

function main(asked: Asked): void {
  const { aheadH, memberCount, mostCharacterCount } = asked;
  const kind = { jobCount: { least: 3, most: 5 }, horizonH: aheadH - 6, slotMin: 30, wantedProbability: 0.5 };
  const rows: DigestRow[] = [];
  for (let k = 0; k < asked.passageCount; k++) {
    const row = digestRow(asked.seed + k, { lengthH: aheadH + 18, aheadH, memberCount, mostCharacterCount, kind });
    if (row === null) continue;
    rows.push(row);
    const [digest, forecast] = [row.fromDigest.toFixed(3), row.fromForecast.toFixed(3)];
    console.log(
      `seed ${row.seed}: all done ${digest} by the digest, ${forecast} by the forecast; ${row.characters} characters`,
    );
  }
  const together = differences(rows.map(({ fromDigest, fromForecast }) => [fromDigest, fromForecast]));
  const single = differences(
    rows.flatMap(({ jobs }) => jobs.map((job) => [job.fromDigest, job.fromForecast] as const)),
  );
  console.log(line('all jobs together', together));
  console.log(line('each job', single));
  if (asked.jsonPath !== undefined)
    writeFileSync(asked.jsonPath, `${JSON.stringify({ asked, together, single, rows }, null, 2)}\n`);
  if (together.mean > MOST_MEAN || together.commonMost > MOST_COMMON) process.exitCode = 1;
}

const asked = readOptions(askedOnCommandLine);
if (asked !== null) main(asked);
