import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { digestRow } from '../../scripts/studies/digest-study.ts';
import {
  buildForecast,
  buildScenarioSet,
  type Forecast,
  sampleReference,
  sampleScenarios,
} from '../../lib/forecast/index.ts';
import { digestOfPassage, forecastOfDigest, packDigest, unpackDigest } from '../../lib/message/digest/index.ts';
import { placeBehind, wayOf } from '../../lib/message/digest/way.ts';
import { parsePassage, type Passage } from '../../lib/passage/index.ts';
import { prepareWindows } from '../../lib/planner/index.ts';
import type { Result } from '../../lib/result/index.ts';
import { MS_PER_H } from '../../lib/time/index.ts';
import { wrap180Deg } from '../../lib/units/index.ts';

function must<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

const folder = path.join(import.meta.dirname, '../../sample-forecasts');
const demo = {
  passage: must(parsePassage(readFileSync(path.join(folder, 'demo-passage.json'), 'utf8'), 'demo')),
  forecast: must(
    buildForecast(
      ['demo-control.grib2', 'demo-members.grib2'].map((name) => ({
        name,
        bytes: new Uint8Array(readFileSync(path.join(folder, name))),
      })),
    ),
  ),
};
const NOW_EPOCH_MS = demo.passage.fixedNowEpochMs ?? 0;

/** Two parts of 270 octets less heads, checks and seal; four. Ours, and less than the frames leave. */
const TWO_PARTS = 420;
const FOUR_PARTS = 880;

const digestFor = (aheadH: number, mostCharacterCount: number) =>
  must(digestOfPassage({ ...demo, nowEpochMs: NOW_EPOCH_MS, aheadH, mostCharacterCount }));

const plain = (forecast: Forecast) =>
  buildScenarioSet(forecast, {
    errorModel: 'none',
    purpose: 'planning',
    seed: 1,
    spreadInflationRatio: 1,
    gustRatio: 1.3,
  });

describe('the digest of the demo passage', () => {
  const digest = digestFor(48, TWO_PARTS);
  const onBoard = forecastOfDigest(must(unpackDigest(packDigest(digest), 'digest')));
  const way = wayOf(digest.places, digest.stepCount);
  const pointsAt = (lateNm: number) => {
    const places = digest.windKn.map((_, step) => placeBehind(way, step, lateNm));
    return {
      epochMs: Float64Array.from(places, (_, step) => digest.firstEpochMs + step * 3 * MS_PER_H),
      lat: Float64Array.from(places, ({ lat }) => lat),
      lon: Float64Array.from(places, ({ lon }) => lon),
    };
  };

  it('holds 48 h in two parts of 270 octets and 96 h in four, with members told apart', () => {
    expect(packDigest(digest).length).toBeLessThanOrEqual(TWO_PARTS);
    expect(digest.spread?.modes.length).toBeGreaterThanOrEqual(2);
    const longer = digestFor(96, FOUR_PARTS);
    expect(packDigest(longer).length).toBeLessThanOrEqual(FOUR_PARTS);
    expect(longer.spread?.modes.length).toBeGreaterThanOrEqual(4);
  });

  it('gives back wind, sea and pressure of the reference run on the nominal way to the rounding of its scales', () => {
    const [own, whole] = [onBoard, demo.forecast].map((forecast) => sampleReference(plain(forecast), pointsAt(0)));
    const gaps = (values: (of: NonNullable<typeof own>) => Float32Array): number[] =>
      own === undefined || whole === undefined
        ? []
        : Array.from(values(own), (value, step) => Math.abs(value - (values(whole)[step] ?? NaN)));
    // The strip is laid on a grid of a quarter of a degree, and lanes are 60 nm apart: half a step more than the scale's half.
    expect(Math.max(...gaps((of) => of.windKn))).toBeLessThan(1.5);
    expect(Math.max(...gaps((of) => of.seaHeightM))).toBeLessThan(0.15);
    expect(Math.max(...gaps((of) => of.pressureHpa))).toBeLessThan(0.6);
    const turns = Array.from(own?.windFromDegTrue ?? [], (from, step) =>
      Math.abs(wrap180Deg(from - (whole?.windFromDegTrue[step] ?? NaN))),
    );
    expect(Math.max(...turns)).toBeLessThan(12);
  });

  it.each([-30, 30, 90])('knows the weather of a boat %d nm late within two knots on average', (lateNm) => {
    const [own, whole] = [onBoard, demo.forecast].map((forecast) => sampleReference(plain(forecast), pointsAt(lateNm)));
    const gaps = Array.from(own?.windKn ?? [], (value, step) => Math.abs(value - (whole?.windKn[step] ?? NaN)));
    expect(gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length).toBeLessThan(1);
    expect(Math.max(...gaps)).toBeLessThan(4);
  });

  it('gives back every member: wind within a knot and a half, sea within two tenths, on average', () => {
    const [own, whole] = [onBoard, demo.forecast].map((forecast) => sampleScenarios(plain(forecast), pointsAt(0)));
    const meanGap = (values: (of: NonNullable<typeof own>) => Float32Array): number => {
      if (own === undefined || whole === undefined) return NaN;
      const gaps = Array.from(values(own), (value, k) => Math.abs(value - (values(whole)[k] ?? NaN)));
      return gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length;
    };
    expect(own?.scenarioCount).toBe(whole?.scenarioCount);
    expect(meanGap((of) => of.windKn)).toBeLessThan(1.5);
    expect(meanGap((of) => of.seaHeightM)).toBeLessThan(0.2);
  });

  it('knows nothing beyond its strip and its hours', () => {
    const far = { epochMs: Float64Array.of(digest.firstEpochMs), lat: Float64Array.of(-30), lon: Float64Array.of(178) };
    expect(sampleReference(plain(onBoard), far).windKn[0]).toBeNaN();
    const late = {
      epochMs: Float64Array.of(digest.firstEpochMs + 52 * MS_PER_H),
      lat: Float64Array.of(-36.5),
      lon: Float64Array.of(-176),
    };
    expect(sampleReference(plain(onBoard), late).windKn[0]).toBeNaN();
  });

  it('opens the best window of the key jobs at the same hour as the whole forecast does', () => {
    const bestHours = (forecast: Forecast): Map<string, number> => {
      const { windows } = must(prepareWindows({ ...demo, forecast, nowEpochMs: NOW_EPOCH_MS }));
      const key = windows.filter(({ jobId }) => ['drop', 'stitch', 'hoist'].includes(jobId));
      return new Map(
        key.map(({ jobId, windows: found }) => [jobId, Math.max(0, ...found.map(({ probability }) => probability))]),
      );
    };
    const [digestHours, wholeHours] = [bestHours(onBoard), bestHours(demo.forecast)];
    for (const [jobId, probability] of wholeHours)
      expect(Math.abs((digestHours.get(jobId) ?? 0) - probability), jobId).toBeLessThan(0.07);
    expect(wholeHours.size).toBe(3);
  });
});

describe('a plan made from a digest', () => {
  const study = {
    lengthH: 66,
    aheadH: 48,
    memberCount: 20,
    mostCharacterCount: TWO_PARTS,
    kind: { jobCount: { least: 2, most: 3 }, horizonH: 42, slotMin: 30, wantedProbability: 0.5 },
  };

  it.each([11, 12])('is as probable on the draws of the forecast as it says (passage %d)', (seed) => {
    const row = digestRow(seed, study);
    expect(Math.abs((row?.fromDigest ?? NaN) - (row?.fromForecast ?? NaN))).toBeLessThanOrEqual(0.15);
  });
});

const asked = (passage: Passage, of: { aheadH?: number; mostCharacterCount?: number; nowEpochMs?: number }) =>
  digestOfPassage({
    passage,
    forecast: demo.forecast,
    nowEpochMs: NOW_EPOCH_MS,
    aheadH: 48,
    mostCharacterCount: TWO_PARTS,
    ...of,
  });

describe('what no digest can be made of', () => {
  it.each([
    ['hours out of range', { aheadH: 1 }, 'message.digest-hours'],
    ['hours that are no number', { aheadH: Number.NaN }, 'message.digest-hours'],
    ['too little room', { mostCharacterCount: 120 }, 'message.digest-too-long'],
    ['a forecast that is over', { nowEpochMs: demo.forecast.endEpochMs + MS_PER_H }, 'message.no-forecast'],
  ])('%s is refused with its reason', (_, of, code) => {
    expect(asked(demo.passage, of)).toMatchObject({ ok: false, problems: [{ code }] });
  });
});
