import { describe, expect, it } from 'vitest';
import { matchTrial, meanAndError, type MatchTrial } from '../../scripts/studies/match-study.ts';

// Truth drawn from the distribution of the scenarios by other seeds, read with the errors stated, scored by the weather of
// the next two days. A short form of `npm run study-match`.

/** What weights may lose on average over truths [nats a value]. */
const HAIR_NATS = 0.02;
/** Truths by number of readings: enough that what many readings gain shows by two standard errors. */
const trialCountOf = (readingCount: number): number => (readingCount < 9 ? 12 : 24);

const trialsOf = (of: Omit<MatchTrial, 'seed' | 'truthErrorRatio'>) =>
  Array.from({ length: trialCountOf(of.readingCount) }, (_, seed) => matchTrial({ ...of, seed, truthErrorRatio: 1 }));

describe.each([
  ['one forecast', 0],
  ['an ensemble of eight', 8],
])('weights of %s, on simulated truth', (_, memberCount) => {
  it.each([
    [3, 12],
    [9, 24],
    [24, 23],
  ])('%d readings: wind and pressure of the next two days become likelier', (readingCount, spanH) => {
    const trials = trialsOf({ memberCount, readingCount, spanH, drawCount: 64 });
    const wind = meanAndError(trials.map(({ windGain }) => windGain));
    const pressure = meanAndError(trials.map(({ pressureGain }) => pressureGain));
    // Three readings gain less than a dozen truths can show by two errors; the long study does.
    const errorCount = readingCount < 9 ? 0 : 2;
    expect(wind.mean).toBeGreaterThan(errorCount * wind.errorSd);
    expect(pressure.mean).toBeGreaterThan(errorCount * pressure.errorSd);
    // No single truth may lose more than what the unweighted tenth allows.
    for (const { windGain } of trials) expect(windGain).toBeGreaterThan(Math.log(0.1));
  });

  it.each([
    [1, 0],
    [2, 3],
  ])('%d readings: no worse than a hair on average', (readingCount, spanH) => {
    const wind = meanAndError(
      trialsOf({ memberCount, readingCount, spanH, drawCount: 64 }).map(({ windGain }) => windGain),
    );
    expect(wind.mean).toBeGreaterThan(-HAIR_NATS);
  });
});
