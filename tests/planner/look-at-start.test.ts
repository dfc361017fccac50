import { describe, expect, it } from 'vitest';
import { lookAtStart, lookEnds, type StartLook } from '../../lib/planner/index.ts';
import { prepare, type Preparation } from '../../lib/planner/prepare.ts';
import type { Step } from '../../lib/jobs/index.ts';
import {
  BASE_EPOCH_MS,
  littleJob,
  littlePassage,
  littleStep,
  littleWeather,
  type LittleWeather,
  onlyNoGo,
} from './little-world.ts';

const H_MS = 3_600_000;
/** Calm, but for a blow of so many knots in scenario hours [from, to). */
const blow = (windKn: number, fromH: number, toH: number): LittleWeather => ({
  windKn: (hourH) => (hourH >= fromH && hourH < toH ? windKn : 8),
  seaHeightM: () => 1,
});
const calm = blow(8, 0, 0);

/** An hour's work on deck in at most 12 kn true (the handling’s own limit aside), boat at anchor of her nominal track. */
function prepared(scenarios: readonly LittleWeather[], step: Partial<Step> = {}, weights?: Int32Array): Preparation {
  const limits = { seaHeightM: onlyNoGo(2) };
  const work = { ...littleStep('work', 60, limits), ...step };
  const passage = littlePassage([
    littleJob('first', [littleStep('all', 30)]),
    littleJob('job', [work], { after: ['first'], handlings: ['hold-course', 'heave-to'] }),
  ]);
  const weather = littleWeather(scenarios, 72, weights === undefined ? {} : { weights });
  return prepare(passage, weather, passage.fixedNowEpochMs ?? 0);
}

function looked(preparation: Preparation, startH: number): StartLook {
  const startSlot = Math.round((BASE_EPOCH_MS + startH * H_MS - preparation.grid.firstEpochMs) / 600_000);
  const look = lookAtStart(preparation, { jobId: 'job', blockIndex: 0, handlingId: 'hold-course', startSlot });
  if (!look.ok) throw new Error(look.problems[0].what);
  return look.value;
}

const limitOf = (look: StartLook, id: string): StartLook['limits'][number] | undefined =>
  look.limits.find(({ limit }) => limit === id);

describe('lookAtStart', () => {
  it('calm in every scenario: certain, planned 60 min, held 90 min, nothing breaks', () => {
    const look = looked(prepared([calm, calm]), 20);
    expect([look.probability, look.probabilitySd, look.refused]).toEqual([1, 0, null]);
    expect(look.plannedMin).toBeCloseTo(60, 3);
    // Contingency: half the planned time, 30 min at least (design, settings).
    expect(look.referenceMin).toBe(90);
    expect(
      look.limits.every(({ firstBrokenEpochMs, brokenShare }) => firstBrokenEpochMs === null && brokenShare === 0),
    ).toBe(true);
    expect(lookEnds(look)).toEqual({
      endEpochMs: look.startEpochMs + 60 * 60_000,
      holdEpochMs: look.startEpochMs + 90 * 60_000,
    });
  });

  it('one scenario of four breaks the handling’s wind 40 min in: that limit, that share, that hour', () => {
    const blowAt = 20 + 40 / 60;
    const look = looked(prepared([calm, calm, calm, blow(60, blowAt, 30)]), 20);
    expect(look.probability).toBeCloseTo(0.75, 6);
    const wind = limitOf(look, 'handling-wind');
    expect(wind?.brokenShare).toBeCloseTo(0.25, 6);
    expect(wind?.firstBrokenEpochMs).toBe(BASE_EPOCH_MS + blowAt * H_MS);
    expect(limitOf(look, 'sea-height')?.brokenShare).toBe(0);
    // Standard error of a share: √(0.75 · 0.25 / 4).
    expect(look.probabilitySd).toBeCloseTo(Math.sqrt((0.75 * 0.25) / 4), 5);
  });

  it('unequal weights: the share is of weight, not of scenarios', () => {
    const weights = Int32Array.of(100_000, 900_000);
    const look = looked(prepared([calm, blow(60, 20, 30)], {}, weights), 20);
    expect(look.probability).toBeCloseTo(0.1, 6);
    expect(limitOf(look, 'handling-wind')?.brokenShare).toBeCloseTo(0.9, 6);
  });

  it('blow after the reference period: not counted', () => {
    expect(looked(prepared([calm, blow(60, 21.6, 30)]), 20).probability).toBe(1);
    expect(looked(prepared([calm, blow(60, 21.5, 30)]), 20).probability).toBe(0.5);
  });

  it('sea exactly at its limit: kept', () => {
    const atLimit = { ...calm, seaHeightM: () => 2 };
    const look = looked(prepared([atLimit]), 20);
    expect([look.probability, limitOf(look, 'sea-height')?.firstBrokenEpochMs]).toEqual([1, null]);
  });

  it('limits stand tightest first, room in the unit and in standard deviations', () => {
    const { limits } = looked(prepared([{ ...calm, seaHeightM: () => 1.9 }]), 20);
    expect(limits[0]?.limit).toBe('sea-height');
    expect(limits[0]?.margin).toBeCloseTo(0.1, 5);
    const sds = limits.flatMap(({ marginSd }) => marginSd ?? []);
    expect(sds).toEqual(sds.toSorted((a, b) => a - b));
  });

  it('sea that nobody knows: named, and not counted as broken', () => {
    const look = looked(prepared([{ ...calm, seaHeightM: () => Number.NaN }]), 20);
    expect(look.unknownLimits).toContain('sea-height');
    expect(look.probability).toBe(1);
  });

  it('daylight needed, 02:00 in the dark: the limit breaks at once in all', () => {
    const look = looked(prepared([calm], { limits: { ...littleStep('x', 1).limits, daylight: 'required' } }), 28);
    expect(limitOf(look, 'daylight')?.brokenShare).toBe(1);
    expect([look.lightAtStart, look.probability]).toEqual(['night', 0]);
  });

  it('too near the end of the forecast: refused, with no figures', () => {
    const look = looked(prepared([calm]), 71.5);
    expect([look.refused, look.plannedMin, look.probability]).toEqual(['past-forecast', null, null]);
    expect(lookEnds(look)).toBeNull();
  });

  it('jobs that come before are named', () => {
    expect(looked(prepared([calm]), 20).afterJobIds).toEqual(['first']);
  });

  it.each([
    [{ jobId: 'jub', blockIndex: 0, handlingId: 'hold-course', startSlot: 5 }, 'windows.job-unknown', 'job'],
    [{ jobId: 'job', blockIndex: 3, handlingId: 'hold-course', startSlot: 5 }, 'windows.block-unknown', 'part 1'],
    [
      { jobId: 'job', blockIndex: 0, handlingId: 'hold-curse', startSlot: 5 },
      'windows.handling-unknown',
      'hold-course',
    ],
    [
      { jobId: 'job', blockIndex: 0, handlingId: 'hold-course', startSlot: -1 },
      'windows.start-outside',
      '2026-06-01T12:00Z',
    ],
    [{ jobId: 'job', blockIndex: 0, handlingId: 'hold-course', startSlot: 5.5 }, 'windows.start-outside', 'from'],
  ])('%j: %s, and what was expected', (asked, code, expected) => {
    const look = lookAtStart(prepared([calm]), asked);
    expect(look.ok ? null : [look.problems[0].code, look.problems[0].expected]).toEqual([
      code,
      expect.stringContaining(expected),
    ]);
  });
});
