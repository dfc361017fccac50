/**
 * What planning jointly is worth: random passages planned by the planner, by each job's first fair window and by each
 * job's best window, all judged on draws none was made or chosen on; and the demo passage.
 *
 *     npm run study-joint -- [--passages N] [--seed S] [--json FILE] [--skip-demo]
 *
 * A list of windows promises nothing about its jobs together. So both lists are judged a second time by what of them does
 * hold together as wanted: the jobs of most priority weight that can be kept by leaving the others out.
 *
 * Weather and jobs are drawn by `scripts/studies` (seeded); passage k has seed S + k. Defaults: 200 passages, seed 1. The
 * passages are searched with `STUDY_SOLVE`, a small budget, the demo with the planner's own.
 */
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { demoForStudy } from './studies/demo.ts';
import {
  jointRow,
  type JointRow,
  type JointSettings,
  summaryLines,
  summaryOf,
  WAYS,
  worthOfWays,
} from './studies/joint-study.ts';
import { DEFAULT_SOLVE, STUDY_SOLVE } from './studies/planner.ts';
import { readOptions, wholeOption } from './studies/whole-option.ts';

/** Every member sixteen times in either set of fresh draws. */
const SETTINGS: JointSettings = { memberCount: 31, reportingCount: 496, solve: STUDY_SOLVE };

function line(name: string, worth: JointRow['worth'], jobCount: number): string {
  const ways = WAYS.map((way) => {
    const { jobsPlannedCount, heldJointProbability, expectedJobsCount } = worth[way];
    return `${way}: ${jobsPlannedCount} of ${jobCount}, together ${heldJointProbability.toFixed(3)}, expected ${expectedJobsCount.toFixed(2)}`;
  });
  return `${name}  ${ways.join('; ')}`;
}

async function demoWorth(): Promise<{ worth: JointRow['worth']; jobCount: number }> {
  const { preparation, weather } = await demoForStudy();
  return { worth: worthOfWays(preparation, weather, DEFAULT_SOLVE), jobCount: preparation.passage.jobs.length };
}

interface Asked {
  readonly passageCount: number;
  readonly seed: number;
  readonly jsonPath: string | undefined;
  readonly skipsDemo: boolean;
}

function askedOnCommandLine(): Asked {
  const { values } = parseArgs({
    options: {
      passages: { type: 'string', default: '200' },
      seed: { type: 'string', default: '1' },
      json: { type: 'string' },
      'skip-demo': { type: 'boolean', default: false },
    },
  });
  return {
    passageCount: wholeOption('passages', values.passages),
    seed: wholeOption('seed', values.seed),
    jsonPath: values.json,
    skipsDemo: values['skip-demo'],
  };
}

async function main({ passageCount, seed, jsonPath, skipsDemo }: Asked): Promise<void> {
  const rows: JointRow[] = [];
  for (let k = 0; k < passageCount; k++) {
    const row = jointRow(seed + k, SETTINGS);
    rows.push(row);
    console.log(line(`seed ${row.seed}`, row.worth, row.jobCount));
  }
  const summary = summaryOf(rows, seed);
  for (const text of summaryLines(summary)) console.log(text);
  const demo = skipsDemo ? null : await demoWorth();
  if (demo !== null) console.log(line('demo', demo.worth, demo.jobCount));
  if (jsonPath !== undefined)
    writeFileSync(jsonPath, `${JSON.stringify({ seed, settings: SETTINGS, summary, demo, rows }, null, 2)}\n`);
}

const asked = readOptions(askedOnCommandLine);
if (asked !== null) await main(asked);
