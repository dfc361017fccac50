/**
 * Whether a log makes later weather likelier: mean gain of the log score of wind and pressure and of the Brier score of
 * "gust at most 20 kn" over the two days after the last reading, weighted against unweighted scenarios, with one standard
 * error; for one forecast and for an ensemble, for few and many readings, for truths drawn as stated and for wrong ones.
 *
 *     npm run study-match -- [--trials N] [--draws N] [--json FILE]
 *
 * Defaults: 160 trials a row, 256 draws. Exit code 1 when a row of stated truths loses more than 0.02 nats and two standard
 * errors, or one of nine readings and more does not gain.
 */
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { matchTrial, meanAndError } from './studies/match-study.ts';
import { readOptions, wholeOption } from './studies/whole-option.ts';

const ROWS = [
  { readingCount: 1, spanH: 0 },
  { readingCount: 2, spanH: 3 },
  { readingCount: 3, spanH: 12 },
  { readingCount: 9, spanH: 24 },
  { readingCount: 24, spanH: 23 },
] as const;
const HAIR_NATS = 0.02;

function askedOnCommandLine(): { trialCount: number; drawCount: number; jsonPath: string | undefined } {
  const { values } = parseArgs({
    options: {
      trials: { type: 'string', default: '160' },
      draws: { type: 'string', default: '256' },
      json: { type: 'string' },
    },
  });
  return {
    trialCount: wholeOption('trials', values.trials),
    drawCount: wholeOption('draws', values.draws),
    jsonPath: values.json,
  };
}

function main({ trialCount, drawCount, jsonPath }: ReturnType<typeof askedOnCommandLine>): void {
  const results: unknown[] = [];
  const faults: string[] = [];
  console.log(
    'forecast   truth  readings     wind log       pressure log     gust Brier x100  shift rms  good fair poor',
  );
  for (const memberCount of [0, 20]) {
    for (const truthErrorRatio of [1, 1.6]) {
      for (const { readingCount, spanH } of ROWS) {
        const trials = Array.from({ length: trialCount }, (_, seed) =>
          matchTrial({ seed, memberCount, readingCount, spanH, drawCount, truthErrorRatio }),
        );
        const wind = meanAndError(trials.map(({ windGain }) => windGain));
        const pressure = meanAndError(trials.map(({ pressureGain }) => pressureGain));
        const gust = meanAndError(trials.map(({ gustGain }) => 100 * gustGain));
        const rms = Math.sqrt(meanAndError(trials.map(({ shiftErrorH }) => shiftErrorH ** 2)).mean);
        const share = (agreement: string): string =>
          String(Math.round((100 * trials.filter((one) => one.agreement === agreement).length) / trialCount)).padStart(
            5,
          );
        const told = ({ mean, errorSd }: { mean: number; errorSd: number }): string =>
          `${mean.toFixed(3).padStart(8)} ± ${errorSd.toFixed(3)}`;
        const kind = memberCount === 0 ? 'one' : `${memberCount} members`;
        console.log(
          `${kind.padEnd(11)} ×${truthErrorRatio.toFixed(1)} ${String(readingCount).padStart(8)} ${told(wind)} ${told(pressure)} ` +
            `${told(gust)}   ${rms.toFixed(1).padStart(6)}  ${share('good')}${share('fair')}${share('poor')}`,
        );
        results.push({ memberCount, truthErrorRatio, readingCount, wind, pressure, gust, rms });
        if (truthErrorRatio === 1 && wind.mean < -HAIR_NATS - 2 * wind.errorSd)
          faults.push(`${kind}, ${readingCount} readings: wind loses ${wind.mean.toFixed(3)}`);
        if (truthErrorRatio === 1 && readingCount >= 9 && wind.mean < 2 * wind.errorSd)
          faults.push(`${kind}, ${readingCount} readings: wind does not gain`);
      }
    }
  }
  console.log(faults.length === 0 ? 'No row of stated truths loses more than the hair.' : faults.join('\n'));
  if (faults.length > 0) process.exitCode = 1;
  if (jsonPath !== undefined) writeFileSync(jsonPath, `${JSON.stringify(results, null, 2)}\n`);
}

const asked = readOptions(askedOnCommandLine);
if (asked !== null) main(asked);
