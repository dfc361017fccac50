/**
 * Whether stated probabilities come true: independent passages are planned, and every planned job's probability, found on
 * the reporting draws, is held against truths drawn anew from the same distribution; then against truths from wrong ones.
 *
 *     npm run study-calibration -- [--passages N] [--truths N] [--draws N] [--seed S] [--json FILE]
 *
 * Defaults: 2000 passages, 32 truths for each, 248 reporting draws (every member eight times), seed 1: some 108 000
 * executions of jobs. Exit code 1 when a bin with 2500 executions or more is off by more than two points and two standard
 * errors (clustered by passage), or the expected calibration error exceeds two points; wrong truths are shown and never
 * judged.
 */
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { addPassage, type CalibrationSettings, type Claim, type Statements } from './studies/calibration-study.ts';
import { CHEAP_SOLVE } from './studies/planner.ts';
import { type Calibration, calibrationFaults, calibrationOf } from './studies/statistics.ts';
import { readOptions, wholeOption } from './studies/whole-option.ts';

const JUDGED: readonly Claim[] = ['job, truth as stated'];
const TOLD_EVERY = 200;

function tableOf(claim: string, { bins, trialCount, expectedError }: Calibration): string[] {
  const percent = (share: number): string => (Number.isFinite(share) ? (100 * share).toFixed(1) : '-').padStart(8);
  return [
    `${claim}: ${trialCount} executions, expected calibration error ${percent(expectedError).trim()} points`,
    '  stated          n    mean  observed  difference  s.e.',
    ...bins.map(
      (bin) =>
        `  ${bin.from.toFixed(2)}–${bin.to.toFixed(2)} ${String(bin.trialCount).padStart(8)}` +
        `${percent(bin.meanStated)}${percent(bin.observed)}${percent(bin.difference)}${percent(bin.standardError)}`,
    ),
  ];
}

interface Asked {
  readonly passageCount: number;
  readonly seed: number;
  readonly settings: CalibrationSettings;
  readonly jsonPath: string | undefined;
}

function askedOnCommandLine(): Asked {
  const { values } = parseArgs({
    options: {
      passages: { type: 'string', default: '2000' },
      truths: { type: 'string', default: '32' },
      draws: { type: 'string', default: '248' },
      seed: { type: 'string', default: '1' },
      json: { type: 'string' },
    },
  });
  const settings: CalibrationSettings = {
    memberCount: 31,
    reportingCount: wholeOption('draws', values.draws),
    truthCount: wholeOption('truths', values.truths),
    othersEveryCount: 8,
    solve: CHEAP_SOLVE,
  };
  return {
    passageCount: wholeOption('passages', values.passages),
    seed: wholeOption('seed', values.seed),
    settings,
    jsonPath: values.json,
  };
}

function main({ passageCount, seed, settings, jsonPath }: Asked): void {
  const statements: Statements = new Map();
  for (let k = 0; k < passageCount; k++) {
    addPassage(seed + k, settings, statements);
    if ((k + 1) % TOLD_EVERY === 0) process.stderr.write(`${k + 1} of ${passageCount} passages\n`);
  }
  const results = [...statements].map(([claim, own]) => ({ claim, calibration: calibrationOf(own) }));
  for (const { claim, calibration } of results) console.log(tableOf(claim, calibration).join('\n'));
  const faults = results
    .filter(({ claim }) => JUDGED.includes(claim))
    .flatMap(({ claim, calibration }) => calibrationFaults(calibration).map((fault) => `${claim}, ${fault}`));
  console.log(faults.length === 0 ? 'As stated, within two points and two standard errors.' : faults.join('\n'));
  if (faults.length > 0) process.exitCode = 1;
  if (jsonPath !== undefined)
    writeFileSync(jsonPath, `${JSON.stringify({ seed, passageCount, settings, results, faults }, null, 2)}\n`);
}

const asked = readOptions(askedOnCommandLine);
if (asked !== null) main(asked);
