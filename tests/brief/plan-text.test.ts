import { describe, expect, it } from 'vitest';
import { planText, solverText } from '../../lib/brief/index.ts';
import type { Plan } from '../../lib/planner/index.ts';
import { plan } from '../pages/fixture-plan.ts';

const settings = { shipTimeOffsetMin: 720, handlingNames: { 'run-off': 'Run off before the wind' } };
const solver = (more: Partial<Plan['solver']>): string =>
  solverText({ solver: { optimal: false, gap: null, costGapShare: null, labels: 7, ...more } });

describe('solverText', () => {
  it.each([
    ['proven', { optimal: true, gap: 0, costGapShare: 0 }, 'No better plan exists on the scenarios searched.'],
    ['nothing proven', {}, 'The best plan found; how much better another may be is not known.'],
    [
      'probability not proven, cost unknown',
      { gap: 0.0712 },
      'The best plan found; another may hold in at most 8 of 100 more of the scenarios searched.',
    ],
    [
      'a gap that rounds to nothing is not called 0',
      { gap: 0 },
      'The best plan found; another may hold in at most 1 of 100 more of the scenarios searched.',
    ],
    [
      'probability proven, cost not',
      { gap: 0, costGapShare: 0.03 },
      'No plan does more or is surer on the scenarios searched; another may save at most 3 % of exposure, miles and sleep.',
    ],
    [
      'cost gap that rounds to nothing',
      { gap: 0, costGapShare: 0 },
      'No plan does more or is surer on the scenarios searched; another may save at most 1 % of exposure, miles and sleep.',
    ],
  ])('%s', (_, of, text) => {
    expect(solver(of)).toBe(text);
  });
});

describe('planText', () => {
  const linesOf = (shown: Plan): string[] => planText(shown, settings).split('\n');

  it('what is next: span of starts, how sure by both measures, the checks, and what is left if not', () => {
    const lines = linesOf(plan);
    const from = lines.indexOf('Next: Drop the mainsail, Thu 28 May 13:00');
    expect(from).toBeGreaterThan(0);
    const next = lines.slice(from, lines.indexOf('Plan (ship’s time)'));
    expect(next).toContain(
      '  stays inside limits: 86 of 100; with work times as they vary, done in 83 of 100, caught in the middle in 4',
    );
    expect(next).toContain('  if not: Fri 29 May 07:20, last start Fri 29 May 09:10, 71 of 100.');
    expect(next.join('\n')).toContain('If at Thu 28 May 15:20 the wind over the deck is still above 18.0 kn');
    expect(next.filter((line) => line.startsWith('    [ ] '))).toHaveLength(4);
  });

  it('figures: what waiting leaves, whether the standing plan was kept, how good it is proven to be', () => {
    const overdue = [{ jobId: 'drop', startUtc: '2026-05-28T00:00Z', halfDone: false, text: 'It is late.' }];
    const kept = { kept: true, text: 'The standing plan is kept.', overdue };
    const lines = linesOf({ ...plan, standing: kept });
    expect(lines).toContain('With work times as they vary, 6.4 of 7 jobs are done inside their limits on average.');
    expect(lines).toContain(plan.waiting?.text);
    expect(lines).toContain('The standing plan is kept.');
    expect(lines).toContain('It is late.');
    expect(lines).toContain(solverText(plan));
    expect(linesOf({ ...plan, waiting: null })).not.toContain(plan.waiting?.text);
  });

  it('job that is not planned: what would buy it, else what would help', () => {
    const line = (shown: Plan): string => linesOf(shown).find((one) => one.includes('aloft: not planned')) ?? 'absent';
    expect(line(plan)).toContain('What would buy it: The work in two');
    const jobs = plan.jobs.map((job) => ({ ...job, wouldBuy: [] }));
    expect(line({ ...plan, jobs })).toMatch(/The lee of land.*next forecast\.$/);
  });

  it('handling by its name, inside a sentence; nothing planned: said', () => {
    expect(planText(plan, settings)).toContain('Drop the mainsail, run off before the wind, deck wind 9 kn (6–12)');
    expect(planText({ ...plan, jobs: [], entries: [] }, settings)).toContain('Nothing can be planned.');
  });
});
