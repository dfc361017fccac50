/** Unusual but permitted input ends with a plan, or with a plain sentence why there is none. */
import { afterAll, describe, expect, it } from 'vitest';
import type { PublishedWindows } from '../../lib/brief/index.ts';
import type { Plan } from '../../lib/planner/index.ts';
import { jobOf, ofJob, overlaps, startMs, endMs } from './plan-rules.ts';
import { IS_LONG_RUN } from '../long-run.ts';
import { type Ran, slatch, slatchProcess } from './run-slatch.ts';
import {
  deckJob,
  forecastOctets,
  type PassageFile,
  removeFolders,
  type Spoiled,
  utcAtH,
  writePassage,
} from './small-passage.ts';

afterAll(removeFolders);

const planOf = ({ code, out, err }: Ran): Plan => {
  expect(code, err).toBe(0);
  return JSON.parse(out) as Plan;
};
const planned = async (spoiled: Spoiled, ...options: readonly string[]): Promise<Plan> =>
  planOf(await slatch('plan', writePassage(spoiled), '--json', ...options));

const statuses = (plan: Plan): readonly string[] => plan.jobs.map(({ status }) => status);
const SOLSTICE_H = 24 * 25;
const arctic = {
  ni: 11,
  nj: 6,
  first: { lat: 70, lon: 0 },
  iIncrementDeg: 4,
  jIncrementDeg: 2,
  scanningMode: 64,
} as const;
const antarctic = { ...arctic, first: { lat: -76, lon: 0 } } as const;

/** A passage at midsummer's day in the north, from a place eastward. */
const atSolstice = (lat: number, jobs: unknown[]): Partial<PassageFile> => ({
  clock: { fixedUtc: utcAtH(SOLSTICE_H) },
  start: { timeUtc: utcAtH(SOLSTICE_H), lat, lon: 10 },
  track: [
    { lat, lon: 10 },
    { lat, lon: 20 },
  ],
  watchkeeper: undefined,
  jobs,
});

describe.concurrent('unusual passage', () => {
  it.each(IS_LONG_RUN ? [1, 15, 30, 60] : [1, 30])(
    'slots of %i min: all work on whole slots, in order',
    async (slotMin) => {
      const plan = await planned({
        passage: { settings: { slotMin, horizonH: slotMin === 1 ? 8 : 24, errorModel: 'none' } },
      });
      expect(statuses(plan)).toEqual(['planned', 'planned']);
      for (const entry of plan.entries) {
        expect(startMs(entry) % (slotMin * 60_000)).toBe(0);
        expect(endMs(entry) % (slotMin * 60_000)).toBe(0);
      }
      expect(overlaps(plan)).toEqual([]);
    },
  );

  it('the same file twice, in this process and in one of its own: the same octets', async () => {
    const file = writePassage();
    const [here, there] = await Promise.all([slatch('plan', file, '--json'), slatchProcess('plan', file, '--json')]);
    expect([here.code, there.code]).toEqual([0, 0]);
    expect(there.out === here.out).toBe(true);
  });

  it('no jobs: a plan without work, windows that say so', async () => {
    const file = writePassage({ passage: { jobs: [] } });
    const [plan, text, windows, json] = await Promise.all([
      slatch('plan', file, '--json'),
      slatch('plan', file),
      slatch('windows', file),
      slatch('windows', file, '--json'),
    ]);
    expect(planOf(plan)).toMatchObject({ jobs: [], totals: { allDoneProbability: null } });
    expect(text.out).toContain('Nothing can be planned.');
    expect(windows).toMatchObject({ code: 0, out: 'The passage has no jobs.\n' });
    expect((JSON.parse(json.out) as PublishedWindows).jobs).toEqual([]);
  });

  it('locker without what the job takes: the job is not planned, and how much is short', async () => {
    const plan = await planned({
      passage: {
        start: { timeUtc: utcAtH(3), lat: -35.5, lon: 176.5, sailState: 'headsail-only' },
        jobs: [{ id: 'stitch', from: 'stitch-tear', lengthM: 0.2, handlings: ['run-off'] }],
        locker: [{ item: 'waxed twine', unit: 'm', onBoard: 3, keep: 1 }],
      },
    });
    const { status, nearestMiss } = jobOf(plan, 'stitch');
    expect(status).toBe('unplanned');
    expect(nearestMiss?.reason).toBe('materials');
    expect(nearestMiss?.text).toMatch(/waxed twine: short by \d\.\d m/);
  });

  it('empty locker: nothing was counted, so nothing is refused for it', async () => {
    const plan = await planned({
      passage: {
        start: { timeUtc: utcAtH(3), lat: -35.5, lon: 176.5, sailState: 'headsail-only' },
        jobs: [{ id: 'stitch', from: 'stitch-tear', lengthM: 0.2, handlings: ['run-off'] }],
      },
    });
    expect(statuses(plan)).toEqual(['planned']);
  });

  it('75 north at midsummer: daylight around the clock, sleep all the same', async () => {
    const [inLight, byDay] = [
      deckJob('first'),
      deckJob('second', { limits: { daylight: 'required' }, after: ['first'] }),
    ];
    const plan = await planned({
      passage: atSolstice(75, [inLight, byDay]),
      forecast: forecastOctets({ baseH: SOLSTICE_H - 3, grid: arctic }),
    });
    expect(statuses(plan)).toEqual(['planned', 'planned']);
    expect(new Set(plan.entries.map(({ light }) => light))).toEqual(new Set(['day']));
    expect(plan.entries.filter(({ kind }) => kind === 'sleep').length).toBeGreaterThan(0);
  });

  it('75 south in midwinter: work held to daylight is not planned for want of light', async () => {
    const plan = await planned({
      passage: atSolstice(-75, [deckJob('first', { limits: { daylight: 'required' } })]),
      forecast: forecastOctets({ baseH: SOLSTICE_H - 3, grid: antarctic }),
    });
    expect(jobOf(plan, 'first')).toMatchObject({ status: 'unplanned', nearestMiss: { reason: 'light' } });
    expect(jobOf(plan, 'first').nearestMiss?.text).toContain('daylight');
  });

  it('over the date line: longitudes go on by small steps and stay within half a turn', async () => {
    const plan = await planned({
      passage: {
        start: { timeUtc: utcAtH(3), lat: -35.5, lon: 179.9 },
        track: [
          { lat: -35.5, lon: 179.9 },
          { lat: -34.5, lon: -176 },
        ],
      },
    });
    expect(statuses(plan)).toEqual(['planned', 'planned']);
    const lons = plan.entries.map(({ lon }) => lon);
    expect(lons.some((lon) => lon > 0) && lons.some((lon) => lon < 0)).toBe(true);
    for (const lon of lons) expect(Math.abs(lon)).toBeLessThanOrEqual(180);
    const steps = lons
      .slice(1)
      .map((lon, index) => Math.abs(((((lon - (lons[index] ?? 0) + 540) % 360) + 360) % 360) - 180));
    expect(Math.max(...steps)).toBeLessThan(5);
  });

  it('watchkeeper without recorded sleeps: usual nights are taken', async () => {
    expect(statuses(await planned({ passage: { watchkeeper: undefined } }))).toEqual(['planned', 'planned']);
  });

  it('watchkeeper who slept an hour in forty: sleep comes first', async () => {
    const plan = await planned({
      passage: { watchkeeper: { sleeps: [{ startUtc: utcAtH(-38), endUtc: utcAtH(-37) }] } },
    });
    const [work] = ofJob(plan, 'first');
    const [sleep] = plan.entries.filter(({ kind }) => kind === 'sleep');
    expect(startMs(sleep ?? { startUtc: null })).toBeLessThan(startMs(work ?? { startUtc: null }));
    // Earlier starts fail on the person, not on the weather.
    const tired = jobOf(plan, 'first').notEarlier.find(({ finding }) => finding?.rule === 'alertness')?.finding;
    expect(tired?.observed).toBeLessThan(tired?.required ?? 0);
  });

  it('one forecast: 64 scenarios by the default error model, one when it is taken at its word', async () => {
    const windKn = (stepH: number): number => (stepH < 30 ? 15 : 12);
    const forecast = forecastOctets({ windKn });
    const [doubted, believed] = await Promise.all([
      planned({ passage: { settings: { horizonH: 24 } }, forecast }),
      planned({ passage: { settings: { horizonH: 24, errorModel: 'none' } }, forecast }),
    ]);
    expect([doubted.forecast.members, believed.forecast.members]).toEqual([64, 1]);
    for (const { probability } of believed.jobs) expect([0, 1]).toContain(probability);
    const spreads = [doubted, believed].map((plan) => ofJob(plan, 'first')[0]?.deckWindKn ?? { p10: 0, p90: 0 });
    expect((spreads[0]?.p90 ?? 0) - (spreads[0]?.p10 ?? 0)).toBeGreaterThan(1);
    expect((spreads[1]?.p90 ?? 0) - (spreads[1]?.p10 ?? 0)).toBe(0);
  });

  it('gale all along: nothing planned, and by how many knots', async () => {
    const plan = await planned({ forecast: forecastOctets({ windKn: () => 45 }) });
    expect(statuses(plan)).toEqual(['unplanned', 'unplanned']);
    for (const { nearestMiss } of plan.jobs)
      expect(nearestMiss?.text).toMatch(/against 16\.0 kn allowed, short by \d+\.\d kn/);
  });

  it('horizon shorter than any job: not planned, and that time is what lacks', async () => {
    const plan = await planned({}, '--until', utcAtH(3.25));
    expect(statuses(plan)).toEqual(['unplanned', 'unplanned']);
    expect(plan.entries.filter(({ kind }) => kind === 'work')).toEqual([]);
    expect(jobOf(plan, 'first').nearestMiss?.text).not.toContain('alertness');
    expect(jobOf(plan, 'first').nearestMiss?.wouldHelp).toMatch(/later end|longer/);
  });

  it('--until: no entry ends later', async () => {
    const plan = await planned({}, '--until', utcAtH(14));
    expect(statuses(plan)).toEqual(['planned', 'planned']);
    expect(plan.entries.filter((entry) => endMs(entry) > Date.parse(utcAtH(14))).map(({ endUtc }) => endUtc)).toEqual(
      [],
    );
  });

  it('--until with a start still ahead: counted from the clock, not from the start', async () => {
    const plan = await planned({ passage: { clock: { fixedUtc: utcAtH(0) } } }, '--until', utcAtH(4));
    const works = plan.entries.filter(({ kind }) => kind === 'work');
    expect(works.length).toBeGreaterThan(0);
    for (const work of works) expect(endMs(work)).toBeLessThanOrEqual(Date.parse(utcAtH(4)));
  });

  it('job longer than the forecast: not planned, and never "by itself it fits"', async () => {
    const minutes = { work: { leastMin: 2000, likelyMin: 3000, mostMin: 4000 } };
    const { status, nearestMiss } = jobOf(
      await planned({ passage: { jobs: [deckJob('first', { minutes })] } }),
      'first',
    );
    expect(status).toBe('unplanned');
    expect(nearestMiss?.text).not.toContain('By itself it fits');
  });

  it('no handling in the sail state on hand: not planned, and that is why', async () => {
    const plan = await planned({ passage: { jobs: [deckJob('first', { handlings: ['close-reach-headsail'] })] } });
    expect(statuses(plan)).toEqual(['unplanned']);
    expect(jobOf(plan, 'first').nearestMiss?.text).toContain('no handling serves it');
  });

  it('totals: sleep and time without look-out are those of the entries', async () => {
    const plan = await planned({});
    const hasSleep = plan.entries.some(({ kind }) => kind === 'sleep');
    expect(plan.totals.sleepHPer24H > 0).toBe(hasSleep);
    expect(plan.totals.unwatchedMin > 0).toBe(hasSleep);
  });

  it('job begun at once: nothing is said of an earlier start that cannot be', async () => {
    // Course is held, so nothing has to settle, and there is just time enough.
    const hurried = deckJob('first', { handlings: ['hold-course'], finishByUtc: '2026-05-27T03:40Z' });
    const first = jobOf(await planned({ passage: { jobs: [hurried] } }), 'first');
    expect(first.startUtc).toBe(utcAtH(3));
    expect([first.notEarlier, first.whyNotEarlier]).toEqual([[], 'It starts at once.']);
  });
});
