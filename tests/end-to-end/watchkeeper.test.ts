/** One tired, rested, chilled or indebted sailor and the same weather: what the plan makes of each. */
import { afterAll, describe, expect, it } from 'vitest';
import { planText } from '../../lib/brief/index.ts';
import type { Plan } from '../../lib/planner/index.ts';
import { hoursBetween, jobOf, ofJob, sleepH, solarHourH, startMs } from './plan-rules.ts';
import { slatch } from './run-slatch.ts';
import { deckJob, forecastOctets, removeFolders, utcAtH, writePassage } from './small-passage.ts';

afterAll(removeFolders);

type Hours = readonly (readonly [number, number])[];

const NOW_H = 3;
const LON = 176.5;
const EFFICIENCY = 0.85;

/** Nights 20–27 h apart, the last one over 20 h before the plan begins: up since then. */
const UP_FOR_LONG: Hours = [
  [-89, -82],
  [-65, -58],
  [-41, -36],
  [-20, -18.5],
];
const RESTED: Hours = [
  [-62, -54],
  [-38, -30],
  [-14, -6],
];
/** Half an hour every four hours, for three weeks. */
const SHORT_FOR_WEEKS: Hours = Array.from({ length: 126 }, (_, k) => [-504 + 4 * k, -503.5 + 4 * k] as const);

/** Light air and low sea all along: a heavy lift and a light job, both on deck. The path of the passage. */
function passageOf(sleepsHour: Hours, watchkeeper: object, more: object = {}): string {
  const heavy = deckJob('lift') as { steps: object[] };
  return writePassage({
    passage: {
      watchkeeper: {
        sleeps: sleepsHour.map(([from, to]) => ({ startUtc: utcAtH(from), endUtc: utcAtH(to) })),
        ...watchkeeper,
      },
      jobs: [{ ...heavy, steps: heavy.steps.map((step) => ({ ...step, effort: 'heavy' })) }, deckJob('light')],
      settings: { horizonH: 30, errorModel: 'none' },
      ...more,
    },
    forecast: forecastOctets({ hoursH: 54 }),
  });
}

const plans = new Map<string, Promise<Plan>>();

/** The plan of a passage; made once. */
function planOf(sleepsHour: Hours, watchkeeper: object = {}): Promise<Plan> {
  const key = JSON.stringify([sleepsHour, watchkeeper]);
  const plan = plans.get(key) ?? freshPlan(passageOf(sleepsHour, watchkeeper));
  plans.set(key, plan);
  return plan;
}

async function freshPlan(path: string): Promise<Plan> {
  const { code, out, err } = await slatch('plan', path, '--json');
  expect(code, err).toBe(0);
  return JSON.parse(out) as Plan;
}

// The models once more, from their published equations: Ingre et al. 2014 (constants as in FIPS 0.2.1) and
// Ramakrishnan et al. 2016. S 7.96 and no debt when the first sleep begins.

interface Model {
  readonly s: number;
  readonly u: number;
  readonly debt: number;
}

const awake = ({ s, u, debt }: Model, h: number): Model => ({
  s: 2.4 + (s - 2.4) * Math.exp(-0.0353 * h),
  u: 24.12 - (24.12 - u) * Math.exp(-h / 40),
  debt: 24.12 + (debt - 24.12) * Math.exp(-h / 97.44),
});

const asleep = ({ s, u, debt }: Model, h: number): Model => {
  const rate = Math.log(0.3 / 6.34) / 8;
  const untilBrakeH = s >= 12.2 ? 0 : (12.2 - s) / (rate * (12.2 - 14.3));
  const fromS = Math.max(s, 12.2);
  const [fast, slow] = [Math.exp(-h), Math.exp(-h / 97.44)];
  return {
    s: h <= untilBrakeH ? s + h * rate * (12.2 - 14.3) : 14.3 - (14.3 - fromS) * Math.exp(rate * (h - untilBrakeH)),
    u: u * fast - 48.24 * (1 - fast) + ((debt + 48.24) * 97.44 * (slow - fast)) / 96.44,
    debt: debt * slow - 48.24 * (1 - slow),
  };
};

function at(sleepsHour: Hours, hour: number): { alertness: number; lapses: number } {
  let model: Model = { s: 7.96, u: 0, debt: 0 };
  let upSinceH = sleepsHour[0]?.[0] ?? 0;
  for (const [from, to] of sleepsHour) {
    model = asleep(awake(model, from - upSinceH), (to - from) * EFFICIENCY);
    upSinceH = to;
  }
  const { s, u } = awake(model, hour - upSinceH);
  const todH = solarHourH(Date.parse(utcAtH(hour)), LON);
  const rad = (Math.PI / 12) * todH;
  const c = 2.5 * Math.cos(rad - (Math.PI / 12) * 16.8);
  const twice = -0.5 + 0.5 * Math.cos(2 * (rad - (Math.PI / 12) * 19.8));
  const sines = [0.97, 0.22, 0.07, 0.03, 0.0001].map((a, k) => a * Math.sin((k + 1) * (Math.PI / 12) * (todH + 2.02)));
  return { alertness: s + c + twice, lapses: u + 4.13 * sines.reduce((sum, sine) => sum + sine, 0) };
}

describe.concurrent('the earliest fair window, and who would have to use it', () => {
  it('too tired for it: the plan sleeps first, starts later, and says so with the amounts', async () => {
    const plan = await planOf(UP_FOR_LONG);
    const lift = jobOf(plan, 'lift');
    const own = at(UP_FOR_LONG, NOW_H);
    expect(own.alertness).toBeLessThan(8.15);
    expect(lift.sleepFirst?.weatherFromUtc).toBe(utcAtH(NOW_H));
    const found = lift.sleepFirst?.findings.find(({ rule }) => rule === 'alertness');
    expect(found?.observed).toBeCloseTo(own.alertness, 2);
    expect(found?.required).toBe(8.15);
    const [work] = ofJob(plan, 'lift');
    const firstSleep = plan.entries.find(({ kind }) => kind === 'sleep');
    expect(startMs(firstSleep ?? { startUtc: null })).toBeLessThan(startMs(work ?? { startUtc: null }));
    expect(startMs(work ?? { startUtc: null })).toBeGreaterThan(Date.parse(utcAtH(NOW_H + 1)));
    // 9.68 − 0.46 · 8.15: mean sleepiness at the gate.
    expect(work?.kssStart).toBeLessThanOrEqual(9.68 - 0.46 * 8.15 + 0.005);
    const told = 'Sleep first. From Wed 27 May 15:00 the weather would do for "Job lift", but you would not: alertness';
    expect(lift.sleepFirst?.text).toContain(told);
    expect(planText(plan, { shipTimeOffsetMin: 720 })).toContain(told);
    expect(plan.watch.sleeps[0]?.forJobId).toBe('lift');
    expect(plan.watch.sleeps[0]?.buys).toMatch(/"Job lift" \(.*\) is barred: alertness/);
  });

  it('rested long before the hour it may start: the sleep it asked for is told, not all the sleep there was', async () => {
    const forbidden = [{ job: 'lift', fromUtc: utcAtH(NOW_H + 0.5), toUtc: utcAtH(NOW_H + 22) }];
    const plan = await freshPlan(passageOf(UP_FOR_LONG, {}, { forbidden }));
    const { sleepFirst, startUtc } = jobOf(plan, 'lift');
    expect(startMs({ startUtc })).toBeGreaterThanOrEqual(Date.parse(utcAtH(NOW_H + 22)));
    const told = /After (\d+\.\d) h in the bunk you would do from \w+ (\d+ \w+ [\d:]+); it starts at /;
    const [, neededH, fitShipTime = ''] = told.exec(sleepFirst?.text ?? '') ?? [];
    const fitMs = Date.parse(fitShipTime.replace(/(?=\d\d:)/, '2026 ') + ' +1200');
    expect(Number(neededH)).toBeCloseTo(sleepH(plan, Date.parse(utcAtH(NOW_H)), fitMs), 1);
    expect(Number(neededH)).toBeLessThan((sleepFirst?.sleepH ?? 0) - 1);
    const hourOf = (utc: string): number => hoursBetween(Date.parse(utcAtH(0)), Date.parse(utc));
    const slept = plan.watch.sleeps.map(({ startUtc: from, endUtc: to }) => [hourOf(from), hourOf(to)] as const);
    const fitH = hoursBetween(Date.parse(utcAtH(0)), fitMs);
    expect(at([...UP_FOR_LONG, ...slept.filter(([, to]) => to <= fitH)], fitH).alertness).toBeGreaterThan(8.1);
  });

  it('rested: the same job begins at once, and no sleep is put before it', async () => {
    const plan = await planOf(RESTED);
    const [work] = ofJob(plan, 'lift');
    expect(jobOf(plan, 'lift').sleepFirst).toBeNull();
    expect(hoursBetween(Date.parse(utcAtH(NOW_H)), startMs(work ?? { startUtc: null }))).toBeLessThan(1);
  });

  it('weeks of three hours a day: after a night the rating would pass, lapses bar it, and more sleep comes first', async () => {
    const plan = await planOf(SHORT_FOR_WEEKS);
    const lift = jobOf(plan, 'lift');
    const own = at(SHORT_FOR_WEEKS, NOW_H);
    const found = lift.sleepFirst?.findings.find(({ rule }) => rule === 'lapses');
    expect(found?.observed).toBeCloseTo(own.lapses, 2);
    expect(found?.required).toBe(10);
    expect(lift.status).toBe('planned');
    // Hours on the way at which alertness alone would do and lapses would not.
    const startUtc = lift.startUtc ?? '';
    const barredByDebt = plan.watch.hours.filter(
      ({ timeUtc, alertness, lapses }) => timeUtc < startUtc && alertness >= 8.15 && lapses > 10,
    );
    expect(barredByDebt.length).toBeGreaterThan(0);
    const free = await planOf(SHORT_FOR_WEEKS, { gates: { hardMostLapses: 24, deckMostLapses: 24 } });
    expect(Date.parse(jobOf(free, 'lift').startUtc ?? '')).toBeLessThan(Date.parse(startUtc));
  });

  it('the hours of the plan follow both models along its own sleep', async () => {
    const plan = await planOf(UP_FOR_LONG);
    const hourOf = (utc: string): number => hoursBetween(Date.parse(utcAtH(0)), Date.parse(utc));
    const planned = plan.watch.sleeps.map(({ startUtc, endUtc }) => [hourOf(startUtc), hourOf(endUtc)] as const);
    const differing = plan.watch.hours.filter(({ timeUtc, asleep: isAsleep, alertness, lapses }) => {
      if (isAsleep) return false;
      const before = planned.filter(([, to]) => to <= hourOf(timeUtc));
      const wanted = at([...UP_FOR_LONG, ...before], hourOf(timeUtc));
      // The boat sails east: the body clock of the plan runs ahead of that of the start by minutes.
      return Math.abs(wanted.alertness - alertness) > 0.25 || Math.abs(wanted.lapses - lapses) > 0.6;
    });
    expect(plan.watch.hours.length).toBeGreaterThan(12);
    expect(differing).toEqual([]);
  });
});

describe.concurrent('the record of sleep', () => {
  const refused = async (sleeps: readonly object[]): Promise<string> => {
    const { code, err } = await slatch('plan', writePassage({ passage: { watchkeeper: { sleeps } } }));
    expect(code).toBe(1);
    return err;
  };

  it.each([
    [
      'ends after now',
      [
        [-8, -1],
        [1, 3.5],
      ],
      'The sleep ends after the plan begins at 2026-05-27T03:00Z',
    ],
    [
      'overlaps another',
      [
        [-8, -1],
        [-2, 0],
      ],
      'It begins before sleeps[0] ends.',
    ],
    ['is reversed', [[-1, -8]], 'not after it begins'],
  ] as const)('a sleep that %s: refused with the reason', async (_, hours, reason) => {
    const err = await refused(hours.map(([from, to]) => ({ startUtc: utcAtH(from), endUtc: utcAtH(to) })));
    expect(err).toContain(reason);
    expect(err).toContain('Expected');
  });

  it('a sleep that ends after now, and a later --now: planned', async () => {
    const sleeps = [
      { startUtc: utcAtH(-8), endUtc: utcAtH(-1) },
      { startUtc: utcAtH(1), endUtc: utcAtH(3.5) },
    ];
    const path = writePassage({ passage: { watchkeeper: { sleeps } } });
    const { code, err } = await slatch('plan', path, '--json', '--now', utcAtH(4));
    expect(code, err).toBe(0);
  });
});

describe.concurrent('why work takes longer', () => {
  const factorsOf = (plan: Plan, jobId: string) => ofJob(plan, jobId)[0]?.factors ?? [];

  it('gloves: with their value and whose choice it is; a coefficient of one’s own is marked as such', async () => {
    const thick = await planOf(RESTED, { gloves: 'thick' });
    expect(factorsOf(thick, 'lift').find(({ id }) => id === 'gloves')).toMatchObject({
      ratio: 1.35,
      basis: 'our choice',
      text: 'thick gloves',
    });
    const own = await planOf(RESTED, { gloves: 'thick', timeFactors: { glovesThickRatio: 2 } });
    expect(factorsOf(own, 'lift').find(({ id }) => id === 'gloves')).toMatchObject({
      ratio: 2,
      basis: 'your own',
    });
    expect(planText(own, { shipTimeOffsetMin: 720 })).toContain('gloves 2.00');
  });

  it('their product: what the planned minutes were made with', async () => {
    const plan = await planOf(RESTED, { gloves: 'thin', paceRatio: 1.2 });
    const [work] = ofJob(plan, 'lift');
    const product = (work?.factors ?? []).reduce((all, { ratio }) => all * ratio, 1);
    expect(work?.factors.map(({ id }) => id)).toEqual(expect.arrayContaining(['gloves', 'own-pace']));
    expect(product / (work?.factorsTogetherRatio ?? Number.NaN)).toBeCloseTo(1, 2);
  });

  it('slowed beyond the cap: refused, and by how much', async () => {
    const plan = await planOf(RESTED, { gloves: 'thick', paceRatio: 3 });
    expect(jobOf(plan, 'lift').status).toBe('unplanned');
    expect(jobOf(plan, 'lift').nearestMiss?.text).toMatch(/4\.1 times as long, 3\.0 at most/);
  });
});
