import { describe, expect, it } from 'vitest';
import { jobRows } from '../../server/presenters/job-rows.ts';
import { planNotes } from '../../server/presenters/plan-notes.ts';
import { planSummary } from '../../server/presenters/plan-summary.ts';
import { timeTexts } from '../../server/presenters/time-texts.ts';
import { picture, plan } from '../pages/fixture-plan.ts';
import { view } from '../pages/fixture-windows.ts';

const times = timeTexts(picture.shipTimeOffsetMin);
const notes = planNotes(plan, picture, times);

describe('planNotes', () => {
  it('any plan: advice and not permission, and COLREG Rule 5', () => {
    const said = planNotes({ ...plan, cautions: [] }, picture, times).cautions.join(' ');
    expect(said).toMatch(/advice, not permission: the skipper decides/);
    expect(said).toMatch(/COLREG Rule 5/);
  });

  it('a plan that says it itself: not said twice', () => {
    const own = ['Advice, not permission: the skipper decides.', 'Nothing here satisfies COLREG Rule 5.'];
    expect(planNotes({ ...plan, cautions: own }, picture, times).cautions).toEqual(own);
  });

  it('missing quantities are named as unknown, never as met', () => {
    expect(notes.forecast.join(' ')).toContain(
      'It does not hold rain: limits on what it does not hold are unknown, never counted as met.',
    );
  });

  it('first fair window for each job stands beside the plan', () => {
    const fact = notes.whole.find((candidate) => candidate.term === 'First fair window for each');
    expect([fact?.figure, fact?.below]).toEqual(['24', '5 of 7 jobs placed']);
  });

  it('nothing planned: says none, not 0', () => {
    const empty = { ...plan, totals: { ...plan.totals, allDoneProbability: null, allDoneProbabilitySd: null } };
    expect(planNotes(empty, picture, times).whole[0]?.figure).toBe('none');
  });

  it('settings nobody edited are listed', () => {
    expect(notes.defaults).toContain('longest sleep 180 min');
  });
});

describe('jobRows', () => {
  const rows = jobRows(plan, 'oil', times);

  it('by start, unplanned last, one chosen', () => {
    expect(rows.map((row) => row.jobId)).toEqual([
      'drop',
      'oil',
      'make',
      'stitch',
      'bolt',
      'fit',
      'hoist',
      'patch',
      'block',
    ]);
    expect(rows.filter((row) => row.isChosen).map((row) => row.jobId)).toEqual(['oil']);
  });

  it('conditional and unplanned are said in words', () => {
    expect(rows.find((row) => row.jobId === 'patch')?.note).toBe('conditional: rain unknown');
    expect(rows.at(-1)).toMatchObject({ start: 'not planned', of100: 'none', room: 'over by 0.4 m', binds: 'sea' });
  });

  it('an id that needs quoting in an address: quoted', () => {
    const odd = { ...plan, jobs: plan.jobs.slice(0, 1).map((job) => ({ ...job, jobId: 'a&b=#' })) };
    expect(jobRows(odd, null, times)[0]?.href).toBe('/?job=a%26b%3D%23');
  });
});

describe('planSummary', () => {
  it('one line per job, the joint chance, whose advice it is', () => {
    const lines = planSummary(view).split('\n');
    expect(lines).toHaveLength(plan.jobs.length + 3);
    expect(lines.at(-2)).toBe('All planned jobs inside their limits: 75 of 100 ± 4');
    expect(lines[1]).toBe('  Thu 13:00   Drop the mainsail: 86 of 100; wind over the deck: 3 kn to spare');
  });
});
