import { describe, expect, it } from 'vitest';
import type { PlannedJob } from '../../lib/planner/index.ts';
import { chosenJob, nextJob } from '../../server/presenters/choose-job.ts';
import { nextCard, type NextCard } from '../../server/presenters/next-card.ts';
import { timeTexts } from '../../server/presenters/time-texts.ts';
import { picture, plan } from '../pages/fixture-plan.ts';
import { NOW_EPOCH_MS } from '../pages/fixture-weather.ts';

const times = timeTexts(picture.shipTimeOffsetMin);

function cardOf(jobId: string, change: Partial<PlannedJob> = {}): NextCard {
  const job = plan.jobs.find((candidate) => candidate.jobId === jobId);
  if (job === undefined) throw new Error(`no job ${jobId} in the fixture`);
  return nextCard({ plan, picture, job: { ...job, ...change }, isNext: jobId === 'drop', times });
}

const factOf = (card: NextCard, term: string): string => {
  const fact = card.facts.find((candidate) => candidate.term === term);
  return fact === undefined ? 'absent' : [fact.figure, fact.rest, fact.below ?? ''].join('|');
};

describe('nextCard', () => {
  it('planned job: start on ship’s time with weekday, UTC beside it, the span of starts', () => {
    const card = cardOf('drop');
    expect([card.when, card.whenUtc]).toEqual(['Thu 28 May 13:00', 'Thu 01:00 UTC']);
    expect(card.startBetween).toMatch(/^start between Thu \d\d:\d\d and \d\d:\d\d$/);
  });

  it('room: in the unit of what binds, rounded towards the limit, with what binds', () => {
    expect(factOf(cardOf('drop'), 'Room to the limit')).toBe(
      '3 kn|to spare|wind over the deck: 15 of 18 kn at Thu 13:00',
    );
    expect(factOf(cardOf('bolt'), 'Room to the limit')).toContain('0.7 m|');
  });

  it('probability below the wanted one: says so', () => {
    expect(factOf(cardOf('drop', { probability: 0.6 }), 'Stays inside limits')).toBe(
      '60|of 100 ± 4|less than the 65 you want; done inside them 83 of 100 if the work runs short or long; caught halfway in 4',
    );
    const unrehearsed = { probability: 0.6, doneInsideLimitsProbability: null };
    expect(factOf(cardOf('drop', unrehearsed), 'Stays inside limits')).toBe('60|of 100 ± 4|less than the 65 you want');
  });

  it('sleep before the next job: said, and only for the next job', () => {
    expect(cardOf('drop').before).toBe('Sleep first: Thu 08:40 to 11:40.');
    expect(cardOf('stitch').before).toBeNull();
  });

  it('conditional job: names what is unknown before the figures', () => {
    expect(cardOf('patch').standing).toMatch(/^Conditional: rain unknown\./);
  });

  it('unplanned job: no start, the nearest miss with its amount, what would help', () => {
    const card = cardOf('block');
    expect(card.when).toBeNull();
    expect(card.standing).toBe('Not planned: no start keeps it inside its limits.');
    expect(factOf(card, 'Beyond the limit')).toBe('over by 0.4 m|sea|1.8 of 1.4 m at Fri 11:30');
    expect(card.why.at(-1)).toMatch(/^What would help: /);
  });

  it('two steps ask for the same look: asked once', () => {
    expect(cardOf('drop', { goCheck: ['Dry?', 'Clear aloft?', 'Dry?'] }).checks).toEqual(['Dry?', 'Clear aloft?']);
  });

  it('job in two parts: work of both, weather for the first', () => {
    expect(factOf(cardOf('drop'), 'Takes')).toBe('50 min||weather must hold 1 h 20 min');
    const again = plan.entries.find((entry) => entry.jobId === 'drop');
    const job = plan.jobs.find((candidate) => candidate.jobId === 'drop');
    if (again === undefined || job === undefined) throw new Error('no drop in the fixture');
    const card = nextCard({ plan: { ...plan, entries: [...plan.entries, again] }, picture, job, isNext: true, times });
    expect(factOf(card, 'Takes')).toBe('50 min|in 2 parts|weather must hold 1 h 20 min for the first');
  });

  it('no fallback: says that there is none instead of nothing', () => {
    expect(cardOf('bolt').ifNot).toMatch(/no second window/);
    expect(cardOf('drop').ifNot).toBe('start Fri 07:20 to 09:10, running off: 71 of 100.');
  });
});

describe('nextJob', () => {
  it('earliest planned start first', () => {
    expect(nextJob(plan, NOW_EPOCH_MS)?.jobId).toBe('drop');
  });

  it('a job that is over: the one after it', () => {
    expect(nextJob(plan, Date.UTC(2026, 4, 28, 2, 0))?.jobId).toBe('oil');
  });

  it('nothing planned: a conditional job, then an unplanned one', () => {
    const unconditional = plan.jobs.filter((job) => job.status !== 'planned');
    expect(nextJob({ ...plan, jobs: unconditional }, NOW_EPOCH_MS)?.jobId).toBe('patch');
    const unplanned = plan.jobs.filter((job) => job.status === 'unplanned');
    expect(nextJob({ ...plan, jobs: unplanned }, NOW_EPOCH_MS)?.jobId).toBe('block');
  });

  it('no jobs: none', () => {
    expect(nextJob({ ...plan, jobs: [] }, NOW_EPOCH_MS)).toBeNull();
  });

  it('a job that does not exist is asked for: the next one', () => {
    expect(chosenJob(plan, 'no-such-job', NOW_EPOCH_MS)?.jobId).toBe('drop');
  });
});
