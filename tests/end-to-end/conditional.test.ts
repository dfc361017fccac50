/** Where a forecast holds no sea, what depends on it is conditional, stands last and counts for nothing. */
import { copyFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { PublishedWindows } from '../../lib/brief/index.ts';
import type { Plan } from '../../lib/planner/index.ts';
import { jobOf, startMs } from './plan-rules.ts';
import { type Ran, slatch } from './run-slatch.ts';
import { deckJob, forecastOctets, removeFolders, writePassage } from './small-passage.ts';

/** Wind of NOAA's GFS of 20 November 2016 (public domain; header beside the file), no waves. */
const WIND_ONLY = resolve(import.meta.dirname, '../golden/windows/gfs_wind10m_20161120_48h.grib2');
const START = '2016-11-20T03:00Z';

/** Mid-Atlantic, light air all day. */
function atlantic(): string {
  const file = writePassage({
    forecast: null,
    passage: {
      clock: { fixedUtc: START },
      start: { timeUtc: START, lat: 34.3, lon: -40.4 },
      track: [
        { lat: 34.3, lon: -40.4 },
        { lat: 34.3, lon: -38 },
      ],
      boat: { speedTables: { 'full-main': [{ twaDeg: 90, twsKn: 10, boatSpeedKn: 1 }] } },
      watchkeeper: undefined,
      jobs: [deckJob('sea-step'), deckJob('sea-handling', { limits: { seaHeightM: null } })],
    },
  });
  copyFileSync(WIND_ONLY, join(dirname(file), 'forecast.grib2'));
  return file;
}

/** Sea to hour 9 and wind to hour 36; it blows 20 kn to hour 12, too much for one of the two jobs. */
function seaEndsEarly(): string {
  const forecast = forecastOctets({ windKn: (stepH) => (stepH <= 12 ? 20 : 8), seaHoursH: 9 });
  const hardy = { deckWindKn: { ideal: 30, caution: 35, noGo: 40 } };
  return writePassage({
    forecast,
    passage: {
      jobs: [
        deckJob('late', { limits: { deckWindKn: { ideal: 4, caution: 6, noGo: 8 } } }),
        deckJob('early', { limits: hardy }),
      ],
    },
  });
}

const planOf = (ran: Ran | undefined): Plan => JSON.parse(ran?.out ?? '') as Plan;
const windowsOf = (ran: Ran | undefined): PublishedWindows => JSON.parse(ran?.out ?? '') as PublishedWindows;

afterAll(removeFolders);

describe('forecast of wind alone', () => {
  let [plan, windows, text]: Ran[] = [];
  beforeAll(async () => {
    const file = atlantic();
    [plan, windows, text] = await Promise.all([
      slatch('plan', file, '--json'),
      slatch('windows', file, '--json'),
      slatch('plan', file),
    ]);
  }, 120_000);

  it('plans, and says that the sea is missing', () => {
    expect([plan?.code, windows?.code, text?.code]).toEqual([0, 0, 0]);
    expect(planOf(plan).forecast.missing).toContain('seaHeight');
  });

  it('a sea limit of the step or of the handling: conditional, and on what', () => {
    const { unknownLimits, ...step } = jobOf(planOf(plan), 'sea-step');
    expect(step.status).toBe('conditional');
    expect(unknownLimits.toSorted()).toEqual(['handling-sea', 'sea-height']);
    expect(jobOf(planOf(plan), 'sea-handling')).toMatchObject({
      status: 'conditional',
      unknownLimits: ['handling-sea'],
    });
  });

  it('no promise of conditional jobs', () => {
    expect(planOf(plan).totals.allDoneProbability).toBeNull();
    expect(text?.out).not.toMatch(/together: \d/);
  });

  it('windows: every one conditional, with what is unknown', () => {
    for (const job of windowsOf(windows).jobs) {
      expect(job.windows.length).toBeGreaterThan(0);
      expect(job.windows.every(({ conditional, unknownLimits }) => conditional && unknownLimits.length > 0)).toBe(true);
    }
  });

  it('go check: the sea by eye first', () => {
    expect(
      jobOf(planOf(plan), 'sea-step').goCheck.filter((line) => /^Sea .* judge it by eye first\./.test(line)),
    ).toHaveLength(1);
  });

  it('text: conditional, and on what', () => {
    expect(text?.out).toContain('Conditional: the forecast does not hold sea');
    expect(text?.out).toMatch(/conditional on .*sea/);
  });
});

describe('forecast whose sea ends before its wind', () => {
  let [plan, windows]: Ran[] = [];
  beforeAll(async () => {
    const file = seaEndsEarly();
    [plan, windows] = await Promise.all([slatch('plan', file, '--json'), slatch('windows', file, '--json')]);
  }, 120_000);

  it('the job that fits while the sea is known is planned, the other conditional', () => {
    expect(jobOf(planOf(plan), 'early')).toMatchObject({ status: 'planned', unknownLimits: [] });
    const late = jobOf(planOf(plan), 'late');
    expect(late.status).toBe('conditional');
    expect(startMs(late)).toBeGreaterThan(Date.UTC(2026, 4, 27, 12));
  });

  it('the plan promises the first alone', () => {
    const { totals, jobs } = planOf(plan);
    expect(totals.allDoneProbability).toBe(jobs.find(({ jobId }) => jobId === 'early')?.probability);
  });

  it('windows: those without a condition first', () => {
    const early = windowsOf(windows).jobs.find(({ jobId }) => jobId === 'early');
    expect(early?.windows.map(({ conditional }) => conditional)).toEqual([false, true]);
  });

  it('start between and decide by: only while the sea is known', () => {
    const { startBetween, decideByUtc } = jobOf(planOf(plan), 'early');
    const seaEndsMs = Date.UTC(2026, 4, 27, 9);
    expect(Date.parse(startBetween?.lastUtc ?? '')).toBeLessThan(seaEndsMs);
    expect(Date.parse(decideByUtc ?? '')).toBeLessThan(seaEndsMs);
  });
});
