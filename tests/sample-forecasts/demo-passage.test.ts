import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { BASE_EPOCH_MS } from '../../scripts/sample-forecasts/build-samples.ts';
import { LEAD_AT_START_H } from '../../scripts/sample-forecasts/weather-pattern.ts';
import { tableSpeedKn, type SpeedRow } from '../../lib/boat/index.ts';
import { type Job, type JobFile, makeJob, precedenceProblems } from '../../lib/jobs/index.ts';
import { parsePassage } from '../../lib/passage/index.ts';
import { MS_PER_H, parseUtc } from '../../lib/time/index.ts';
import { readSample, sampleFolder } from './sample-file.ts';

interface DemoFile {
  readonly clock: { readonly fixedUtc: string };
  readonly start: { readonly timeUtc: string; readonly lat: number; readonly lon: number };
  readonly track: readonly { readonly lat: number; readonly lon: number }[];
  readonly boat: { readonly speedTables: Readonly<Record<string, readonly SpeedRow[]>> };
  readonly watchkeeper: { readonly sleeps: readonly { readonly startUtc: string; readonly endUtc: string }[] };
  readonly jobs: readonly JobFile[];
  readonly locker: readonly {
    readonly item: string;
    readonly unit: string;
    readonly onBoard: number;
    readonly keep?: number;
  }[];
  readonly forecasts: readonly string[];
}

const text = new TextDecoder().decode(readSample('demo-passage.json'));
const demo = JSON.parse(text) as DemoFile;

function instant(utc: string): number {
  const read = parseUtc(utc, 'demo');
  if (!read.ok) throw new Error(utc);
  return read.value;
}

function jobOf(file: JobFile): Job {
  const job = makeJob(file, file.id);
  if (!job.ok) throw new Error(JSON.stringify(job.problems));
  return job.value;
}

describe('demo passage', () => {
  it('read as any passage file: no problem, and what it says stands', () => {
    const read = parsePassage(text, 'demo-passage.json');
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    const passage = read.value;
    expect(passage.fixedNowEpochMs).toBe(Date.UTC(2026, 4, 27, 18));
    expect(passage.start.sailStateId).toBe('deep-reef');
    expect(passage.jobs).toHaveLength(12);
    expect(passage.settings).toMatchObject({
      wantedProbability: 0.65,
      shipTimeOffsetMin: 720,
      planningLimitRatio: 0.94,
    });
    expect(passage.watchkeeper.sleeps).toHaveLength(6);
    expect(Object.keys(passage.boat.speedTables)).toEqual(['full-main', 'deep-reef', 'headsail-only']);
  });

  it('clock and start: six hours after the base time of its forecasts, which lie beside it', () => {
    expect(instant(demo.start.timeUtc)).toBe(BASE_EPOCH_MS + LEAD_AT_START_H * MS_PER_H);
    expect(demo.clock.fixedUtc).toBe(demo.start.timeUtc);
    expect(demo.forecasts.map((name) => existsSync(join(sampleFolder, name)))).toEqual([true, true]);
  });

  it('track: begins at the start and stays two degrees inside the area of the forecasts', () => {
    expect(demo.track[0]).toMatchObject({ lat: demo.start.lat, lon: demo.start.lon });
    for (const { lat, lon } of demo.track) {
      expect(lat).toBeGreaterThan(-42);
      expect(lat).toBeLessThan(-26);
      expect((lon + 360) % 360).toBeGreaterThan(172);
      expect((lon + 360) % 360).toBeLessThan(208);
    }
  });

  it('sleep: the last three days, in order, ended before the start', () => {
    const edges = demo.watchkeeper.sleeps.flatMap(({ startUtc, endUtc }) => [instant(startUtc), instant(endUtc)]);
    expect(edges).toEqual([...edges].toSorted((a, b) => a - b));
    expect(edges.at(-1)).toBeLessThan(instant(demo.start.timeUtc));
    expect(edges[0]).toBeLessThan(instant(demo.start.timeUtc) - 72 * MS_PER_H);
  });

  it('jobs: all made without a problem, in an order without a ring', () => {
    expect(precedenceProblems(demo.jobs.map(jobOf), (index) => `jobs[${index}]`)).toEqual([]);
    expect(demo.jobs.map(({ id }) => id)).toEqual(
      'oil bench filter drop halyard box swap bolt stitch hoist inspect masthead'.split(' '),
    );
  });

  it('seam of one metre in two rows at 0.4, 0.6, 0.9 m/h: 133, 200, 300 minutes with the needle', () => {
    const sew = jobOf(demo.jobs.find(({ id }) => id === 'stitch') ?? { id: 'none' }).steps.find(
      ({ id }) => id === 'sew',
    );
    expect(sew?.work.likelyMin).toBeCloseTo(200, 9);
    expect(sew?.work.leastMin).toBeCloseTo(133.333, 3);
    expect(sew?.work.mostMin).toBeCloseTo(300, 9);
    expect(sew?.session).toMatchObject({ longestMin: 60, restMin: 20 });
  });

  it('locker: holds what all jobs together take and none of them makes, above the reserve', () => {
    const jobs = demo.jobs.map(jobOf);
    const made = new Set(jobs.flatMap(({ makes }) => makes.map(({ item }) => item)));
    const taken = jobs.flatMap(({ steps }) => steps.flatMap(({ materials }) => materials));
    const needs = taken.filter(({ item }) => !made.has(item));
    expect([...made]).toEqual(['batten']);
    expect(needs.length).toBeGreaterThan(5);
    for (const { item, unit } of needs) {
      const stock = demo.locker.find((candidate) => candidate.item === item && candidate.unit === unit);
      const needed = needs.filter((need) => need.item === item).reduce((sum, need) => sum + need.amount, 0);
      expect((stock?.onBoard ?? 0) - (stock?.keep ?? 0), item).toBeGreaterThanOrEqual(needed);
    }
  });

  it('speed: deep reef and headsail alone are never faster than full sail, on any heading in any wind', () => {
    const { 'full-main': full = [], 'deep-reef': reefed = [], 'headsail-only': headsail = [] } = demo.boat.speedTables;
    expect(headsail).toHaveLength(100);
    for (const { twaDeg, twsKn, boatSpeedKn } of headsail) {
      const reefedKn = tableSpeedKn(reefed, { twaDeg, twsKn });
      // Rounded to hundredths.
      expect(boatSpeedKn).toBeLessThanOrEqual(tableSpeedKn(full, { twaDeg, twsKn }) + 0.01);
      expect(reefedKn).toBeLessThanOrEqual(tableSpeedKn(full, { twaDeg, twsKn }) + 0.01);
      expect(boatSpeedKn).toBeGreaterThan(0);
    }
  });
});
