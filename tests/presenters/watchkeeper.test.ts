import { describe, expect, it } from 'vitest';
import type { Plan, PlanEntry, PlanPicture } from '../../lib/planner/index.ts';
import { jobReasons } from '../../server/presenters/job-reasons.ts';
import { nextCard, type NextCard } from '../../server/presenters/next-card.ts';
import { planStrip } from '../../server/presenters/plan-strip.ts';
import { timeTexts } from '../../server/presenters/time-texts.ts';
import { watchkeeper, type Watchkeeper } from '../../server/presenters/watchkeeper.ts';
import { picture, plan } from '../pages/fixture-plan.ts';
import { view } from '../pages/fixture-windows.ts';

const times = timeTexts(picture.shipTimeOffsetMin);

interface Change {
  readonly watch?: Partial<Plan['watch']>;
  readonly entries?: readonly PlanEntry[];
  readonly picture?: Partial<PlanPicture>;
}
const shown = (change: Change): Watchkeeper =>
  watchkeeper(
    {
      ...view,
      plan: { ...plan, entries: change.entries ?? plan.entries, watch: { ...plan.watch, ...change.watch } },
      picture: { ...picture, ...change.picture },
    },
    times,
  );
const gates = (change: Partial<Plan['watch']['gates']>): Change => ({
  watch: { gates: { ...plan.watch.gates, ...change } },
});
const allSlots = (value: number): Float32Array => picture.alertnessPoints.map(() => value);
const whole = shown({});

const gateLabels = (of: Watchkeeper, lane: 'alertness' | 'lapses'): string[] =>
  of.chart[lane].gates.map(({ lines }) => lines.join(' '));

describe('drawing of alertness', () => {
  it('gate lines in words, with the figures of the passage', () => {
    expect(gateLabels(whole, 'alertness')).toEqual([
      'heavy, aloft, overside 8.15',
      'other deck work 7',
      'anything: sleepiness 8',
    ]);
    expect(gateLabels(whole, 'lapses')).toEqual(['other deck work 12', 'heavy, aloft, overside 10']);
    const own = shown(gates({ hardLeastAlertnessPoints: 9.5, deckMostLapses: 11 }));
    expect(gateLabels(own, 'alertness')[0]).toBe('heavy, aloft, overside 9.5');
    expect(gateLabels(own, 'lapses')[0]).toBe('other deck work 11');
  });

  it('a line is rounded to its strict side', () => {
    const odd = shown(gates({ hardLeastAlertnessPoints: 8.1501, hardMostLapses: 9.9999 }));
    expect(gateLabels(odd, 'alertness')[0]).toBe('heavy, aloft, overside 8.16');
    expect(gateLabels(odd, 'lapses')[1]).toBe('heavy, aloft, overside 9.99');
  });

  // Model 5c of Ingre et al. 2014 (PLoS ONE 9(10):e108679), as two public implementations have it: 9.68 − 0.46 · A.
  it.each([
    [(9.68 - 8) / 0.46, 'anything: sleepiness 8'],
    [(9.68 - 7) / 0.46, 'anything: sleepiness 7'],
  ])('%d points: %s', (anyLeastAlertnessPoints, label) => {
    expect(gateLabels(shown(gates({ anyLeastAlertnessPoints })), 'alertness')[2]).toBe(label);
  });

  it('known to the end of the last entry, unknown beyond it, and the key says so', () => {
    const { alertness, lapses, key } = whole.chart;
    const lastEpochMs = Math.max(...plan.entries.map(({ endUtc }) => Date.parse(endUtc)));
    for (const lane of [alertness, lapses]) {
      const known = lane.epochMs.filter((_, i) => (lane.values[i] ?? null) !== null);
      expect(known.at(-1)).toBeLessThanOrEqual(lastEpochMs);
      expect(lastEpochMs - (known.at(-1) ?? 0)).toBeLessThan(3_600_000);
      expect(lane.unknown).toHaveLength(1);
    }
    expect(key.map(({ kind }) => kind)).toContain('unknown');
  });

  it('a trough between two drawn points is drawn, not stepped over', () => {
    const sunk = picture.alertnessPoints.map((points, i) => (i === 100 ? 4.25 : points));
    expect(Math.min(...shown({ picture: { alertnessPoints: sunk } }).chart.alertness.values.map((v) => v ?? 99))).toBe(
      4.25,
    );
  });

  it('sleeps and low hours lie where the plan has them, cut off where the drawing ends', () => {
    const { sleeps, lowHours, axis } = whole.chart;
    expect(sleeps.map(({ fromEpochMs }) => fromEpochMs)).toEqual(
      plan.watch.sleeps.map(({ startUtc }) => Date.parse(startUtc)),
    );
    const beyond = { startUtc: '2026-05-30T20:00Z', endUtc: '2026-06-02T20:00Z' };
    const cut = shown({
      watch: { lowHours: [beyond, { startUtc: '2026-06-05T00:00Z', endUtc: '2026-06-05T04:00Z' }] },
    });
    expect(cut.chart.lowHours.map(({ toEpochMs }) => toEpochMs)).toEqual([axis.toEpochMs]);
    expect(lowHours[0]?.title).toBe('Low hours Fri 02:30 to 06:30');
  });

  it('work on deck and below in one lane; conditional work is of its own kind; waits are left out', () => {
    const kinds = (entries: readonly PlanEntry[]): string[] =>
      shown({ entries }).chart.work.blocks.map(({ kind }) => kind);
    expect(kinds(plan.entries)).toHaveLength(plan.entries.filter(({ kind }) => kind === 'work').length);
    expect(kinds(plan.entries).filter((kind) => kind === 'conditional')).toHaveLength(1);
    expect(kinds(plan.entries.map((entry) => ({ ...entry, kind: 'wait' })))).toEqual([]);
  });

  it('the key names only what is drawn', () => {
    const bare = shown({ entries: [], watch: { sleeps: [], lowHours: [] } });
    expect(bare.chart.key.map(({ kind }) => kind)).toEqual(['awake-line', 'unknown']);
  });

  it('in words for those who do not see it: both lanes with their lines, sleep, low hours, work', () => {
    const { description } = whole.chart;
    for (const text of [
      'lines: heavy, aloft, overside 8.15, other deck work 7 and anything: sleepiness 8.',
      'Asleep: Thu 08:40 to 11:40;',
      'Low hours: Fri 02:30 to 06:30;',
      'Work: Drop the mainsail, Thu 13:00, 50 min;',
      'unknown where no sleep is planned',
    ])
      expect(description).toContain(text);
  });

  it('hour by hour: body clock, asleep or awake, both models; whoever sleeps rates no sleepiness', () => {
    const { table } = whole.chart;
    expect(table.rows).toHaveLength(plan.watch.hours.length);
    expect(table.rows.every((row) => row.length === table.head.length)).toBe(true);
    const awake = table.rows.find(([time]) => time === 'Thu 13:00');
    expect(awake?.slice(1, 3)).toEqual(['12:30', 'awake']);
    expect(table.rows.find(([time]) => time === 'Thu 09:00')?.slice(2)).toEqual([
      'asleep',
      expect.stringMatching(/^\d\.\d$/),
      'asleep',
      'asleep',
      expect.stringMatching(/^\d+\.\d$/),
    ]);
  });

  it('sleepiness beyond the scale is shown as its end: it has nine steps (Karolinska scale, 1 to 9)', () => {
    const [hour] = plan.watch.hours;
    if (hour === undefined) throw new Error('no hours in the fixture');
    const rows = shown({ watch: { hours: [{ ...hour, asleep: false, kss: 9.4, kssP90: 10.5 }] } }).chart.table.rows;
    expect(rows[0]?.slice(4, 6)).toEqual(['9.0', '9.0']);
  });
});

describe('sentences before the drawing', () => {
  const sentence = (of: Watchkeeper, beginning: RegExp): string =>
    of.sentences.find((one) => beginning.test(one)) ?? 'absent';

  it('least awake: of the waking hours only', () => {
    expect(sentence(whole, /^You are least/)).toMatch(
      /^You are least awake at Thu 08:30: alertness 6\.2 points, sleepiness 6\.8 of 9\.$/,
    );
    const allAsleep = { ...plan.watch.sleeps[0], startUtc: '2026-05-27T20:00Z', endUtc: '2026-06-02T00:00Z' };
    const asleep = shown({ watch: { sleeps: [allAsleep as Plan['watch']['sleeps'][number]] } });
    expect(asleep.sentences[0]).toBe('How awake you will be is unknown.');
  });

  it('too tired for hard work: when, and never while asleep', () => {
    expect(sentence(whole, /^Awake but/)).toContain('below 8.15 points: Thu 08:20 to 08:40;');
    expect(sentence(shown(gates({ hardLeastAlertnessPoints: 3 })), /too tired/)).toMatch(/^In no waking hour/);
  });

  it.each([
    [9.9, 'heavy work, work aloft and overside may have 10.'],
    [11, 'heavy work, work aloft and overside may have 10, so it waits then.'],
    [12.5, 'any work on deck may have 12, so it waits then.'],
  ])('debt of many days, %d lapses: %s', (lapses, end) => {
    const of = shown({ picture: { lapses: allSlots(lapses) } });
    expect(sentence(of, /^Debt/)).toMatch(
      new RegExp(`at most ${lapses.toFixed(1)} lapses, .*${end.replace('.', '\\.')}$`),
    );
  });

  it('nothing known: unknown is said, nothing is said to be well', () => {
    const unknown = shown({ picture: { alertnessPoints: allSlots(Number.NaN), lapses: allSlots(Number.NaN) } });
    expect(unknown.sentences.slice(0, 3)).toEqual([
      'How awake you will be is unknown.',
      'Whether you are awake enough for heavy work, work aloft and overside is unknown.',
      'The debt of many days is unknown.',
    ]);
    expect(unknown.chart.description).toContain('Alertness unknown');
  });
});

describe('what each sleep buys', () => {
  const [first] = plan.watch.sleeps;
  if (first === undefined) throw new Error('no sleep in the fixture');
  const rowOf = (change: object): Watchkeeper['sleeps'][number] | undefined =>
    shown({ watch: { sleeps: [{ ...first, ...change }] } }).sleeps[0];

  it('hours, length, alarm, alertness before and after, unwatched minutes, and the sentence', () => {
    expect(rowOf({})).toEqual({
      key: first.startUtc,
      ship: 'Thu 08:40 to 11:40',
      lasts: '3 h',
      alarm: 'alarm at 11:40',
      alertness: '6.3 before, 8.8 on waking',
      nobodyLooks: '2 h 48 min beyond the look-out interval',
      closeIn: 'a ship just out of sight can be close in 12 min, in this visibility',
      buys: first.buys,
    });
  });

  it('a nap inside the interval, an interval that is only set: neither is told as a ship', () => {
    expect(rowOf({ beyondLookoutMin: 0 })?.nobodyLooks).toBe('not beyond the look-out interval');
    expect(rowOf({ lookoutLimitedBy: 'cap', lookoutIntervalMin: 20 })?.closeIn).toBe(
      'the interval is 20 min, the longest that is set',
    );
    expect(rowOf({ lookoutLimitedBy: 'visibility', isVisibilityKnown: false, lookoutIntervalMin: 12.4 })?.closeIn).toBe(
      'a ship just out of sight can be close in 12 min, in ordinary haze; visibility is not in the forecast',
    );
  });

  it('an interval is rounded to its strict side', () => {
    expect(rowOf({ lookoutIntervalMin: 12.9 })?.closeIn).toContain('close in 12 min');
  });

  it('sleeps that buy the same together: said once', () => {
    expect(whole.sleeps.map(({ buys }) => buys.slice(0, 22))).toEqual([
      'Without this sleep "Dr',
      'Without these 3 sleeps',
      'Counted together with ',
      'Counted together with ',
      'Without these 2 sleeps',
      'Counted together with ',
      'Rest after the work: i',
      'Counted together with ',
    ]);
  });

  it('the look-out rule stands with sleep, and not where nobody sleeps', () => {
    expect(whole.lookout).toMatch(/COLREG Rule 5/);
    expect(shown({ watch: { sleeps: [] } }).lookout).toBeNull();
  });
});

describe('sleep in each 24 hours', () => {
  const day = { fromUtc: '2026-05-27T20:12Z', toUtc: '2026-05-28T20:12Z', wantedH: 7, leastH: 5.5 };
  const dayOf = (change: object): readonly [string | undefined, string | undefined] => {
    const [row] = shown({ watch: { days: [{ ...day, sleptH: 0, ...change }] } }).days;
    return [row?.standing, row?.words];
  };

  it.each([
    [7, 'enough', 'enough'],
    [6.5, 'below-wanted', 'below the wanted by 30 min'],
    [5.5, 'below-wanted', 'below the wanted by 1 h 30 min'],
    [5.499, 'below-least', 'below the least by 1 min'],
    [4, 'below-least', 'below the least by 1 h 30 min'],
  ])('%d h: %s, said in words with the amount', (sleptH, standing, words) => {
    expect(dayOf({ sleptH })).toEqual([standing, words]);
  });
});

describe('prior sleep, where it does not bar', () => {
  it('a line with ship’s time and amounts for each work against it', () => {
    expect(whole.priorSleep).toHaveLength(1);
    expect(whole.priorSleep[0]).toMatch(/^\w{3} \d\d:\d\d, First job: at its end 4\.2 h slept in 24, 5\.0 h needed\.$/);
  });
});

describe('why work takes longer', () => {
  it('in order of time, the two factors that change most first, the rest hinted at', () => {
    expect(whole.longer.map(({ what, when, together }) => `${what}, ${when}: ${together}`)).toEqual([
      'Drop the mainsail, Thu 13:00: × 1.15 together (tiredness 1.15)',
      'Make batten 3, below, Thu 19:30: × 1.3 together (darkness 1.3)',
      'Stitch the leech, two rows, Fri 07:30: × 1.32 together (looking round 1.15, cold hands 1.12 …)',
      'Draw the gooseneck bolt, Fri 12:00: × 1.04 together (heat 1.04)',
    ]);
  });

  it('each factor with its value, its figures and where they come from; then the product', () => {
    const stitch = whole.longer[2];
    expect(stitch?.factors.map(({ times: value, basis }) => `${value} ${basis}`)).toEqual([
      '× 1.08 our choice',
      '× 1.12 our choice',
      '× 1.15 common practice',
      '× 0.95 your own',
    ]);
    expect(stitch?.factors[1]).toMatchObject({ name: 'Cold hands', from: 'hands feel 7 °C, fine work' });
    expect(stitch?.product).toContain('what takes an hour at pace 1 takes 79 min');
    expect(whole.longerHint).toContain('watchkeeper.timeFactors');
  });

  it('product unknown: said; work without factors: not listed', () => {
    const unknown = plan.entries.map((entry) => ({ ...entry, factorsTogetherRatio: null }));
    expect(shown({ entries: unknown }).longer[0]).toMatchObject({
      together: 'unknown together (tiredness 1.15)',
      product: 'All together: unknown.',
    });
    expect(shown({ entries: plan.entries.map((entry) => ({ ...entry, factors: [] })) }).longer).toEqual([]);
  });
});

// Figures of STCW Code A-VIII/1: 10 h in 24, 77 h in 7 days, one period of 6 h, 14 h between two.
describe('rest rules, for information', () => {
  it('what is asked, what the plan has, and by how much it differs; too short a record is not a yes', () => {
    expect(whole.restRules.map(({ asks, has, words }) => `${asks}: ${has}, ${words}`)).toEqual([
      'at least 10 h: 6.5 h, short by 3.5 h',
      'at least 77 h: unknown, the record is too short to say',
      'at least 6 h: 3 h, short by 3 h',
      'at most 14 h: 13.5 h, not exceeded',
    ]);
  });

  it('time between two rests too long: over, not short', () => {
    const restRules = plan.watch.restRules.map((rule) => ({ ...rule, observed: 15, met: false }));
    expect(shown({ watch: { restRules } }).restRules.at(-1)?.words).toBe('over by 1 h');
  });

  it('the notes stand as they are', () => {
    expect(whole.notes).toEqual(plan.watch.notes);
    expect(whole.notes.join(' ')).toMatch(/COLREG Rule 5/);
  });
});

describe('sleep first', () => {
  const cardOf = (jobId: string, isNext: boolean): NextCard => {
    const job = plan.jobs.find((one) => one.jobId === jobId);
    if (job === undefined) throw new Error(`no job ${jobId} in the fixture`);
    return nextCard({ plan, picture, job, isNext, times });
  };
  const said = plan.jobs.find(({ jobId }) => jobId === 'drop')?.sleepFirst?.text ?? 'absent';

  it('first among the reasons of the job, a sentence of its own; no such finding: nothing', () => {
    const reasons = jobReasons(view, times);
    expect(reasons.find(({ jobId }) => jobId === 'drop')?.paragraphs[0]).toEqual({ label: 'Sleep first', text: said });
    const stitch = reasons.find(({ jobId }) => jobId === 'stitch');
    expect(stitch?.paragraphs.map(({ label }) => label)).not.toContain('Sleep first');
  });

  it('the words of its label are not said twice', () => {
    const jobs = plan.jobs.map((job) =>
      job.jobId === 'drop' && job.sleepFirst !== null
        ? { ...job, sleepFirst: { ...job.sleepFirst, text: 'Sleep first. From Wed it would do.' } }
        : job,
    );
    const reasons = jobReasons({ ...view, plan: { ...plan, jobs } }, times);
    expect(reasons.find(({ jobId }) => jobId === 'drop')?.paragraphs[0]?.text).toBe('From Wed it would do.');
  });

  it('first in the card, and the look-out rule with it', () => {
    expect(cardOf('drop', true).why[0]).toBe(said);
    expect(cardOf('drop', true).lookout).toMatch(/COLREG Rule 5/);
    expect(cardOf('stitch', false).lookout).toBeNull();
  });

  it('strip: the look-out rule where it shows sleep, else not', () => {
    expect(planStrip(view, times).lookout).toMatch(/COLREG Rule 5/);
    const awake = { ...plan, entries: plan.entries.filter(({ kind }) => kind !== 'sleep') };
    expect(planStrip({ ...view, plan: awake }, times).lookout).toBeNull();
  });
});
