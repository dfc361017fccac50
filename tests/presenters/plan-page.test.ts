import { describe, expect, it } from 'vitest';
import { solverText } from '../../lib/brief/index.ts';
import type { Plan, PlannedJob } from '../../lib/planner/index.ts';
import { formatUtc } from '../../lib/time/index.ts';
import { chanceWord, roomWord } from '../../server/presenters/chance-words.ts';
import { type JobReason, jobReasons } from '../../server/presenters/job-reasons.ts';
import type { PassageView } from '../../server/presenters/plan-standing.ts';
import { planPage, type WholePlanPage } from '../../server/presenters/plan-page.ts';
import { timeTexts } from '../../server/presenters/time-texts.ts';
import { watchBill, type WatchRow } from '../../server/presenters/watch-bill.ts';
import { picture, plan } from '../pages/fixture-plan.ts';
import { view } from '../pages/fixture-windows.ts';

const times = timeTexts(picture.shipTimeOffsetMin);

function pageOf(shown: Plan, more: Partial<PassageView> = {}): WholePlanPage {
  const page = planPage({ kind: 'ready', view: { ...view, plan: shown, ...more } }, picture.nowEpochMs);
  if (page.kind !== 'plan') throw new Error(`the page is ${page.kind}`);
  return page;
}

/** From first to last point of each unbroken piece of a line. */
function spansOfKnown(epochMs: readonly number[], values: readonly (number | null)[]): string[][] {
  const pieces: number[][] = [[]];
  values.forEach((value, i) => {
    if (value === null) pieces.push([]);
    else pieces.at(-1)?.push(epochMs[i] ?? 0);
  });
  const known = pieces.filter((piece) => piece.length > 0);
  return known.map((piece) => [formatUtc(piece[0] ?? 0), formatUtc(piece.at(-1) ?? 0)]);
}

const rowsOf = (shown: Plan = plan): WatchRow[] =>
  watchBill({ ...view, plan: shown }, times).days.flatMap((day) => day.rows);

const reasonOf = (jobId: string, change: object = {}): JobReason => {
  const jobs = plan.jobs.map((job): PlannedJob => (job.jobId === jobId ? { ...job, ...change } : job));
  const found = jobReasons({ ...view, plan: { ...plan, jobs } }, times).find((reason) => reason.jobId === jobId);
  if (found === undefined) throw new Error(`no reason for ${jobId}`);
  return found;
};

describe('plan page', () => {
  it('how sure, what is left, and what first-fair would give', () => {
    const { sentences } = pageOf(plan);
    expect(sentences[0]).toBe(
      'All 7 planned jobs together stay inside their limits in 75 of 100 ± 4; you want 65. 1 more stands under a condition, and 1 could not be planned.',
    );
    expect(sentences[1]).toBe(
      'Taking each job’s first fair window places 5 instead of 7 and keeps them all inside their limits in 24 of 100.',
    );
  });

  it('how good it is proven to be: the sentence of the terminal, at the top and in the notes', () => {
    const page = pageOf(plan);
    const said = solverText(plan);
    expect(page.sentences.at(-1)).toBe(said);
    expect(page.notes.forecast).toContain(said);
  });

  it('waiting for the next forecast, and whether the standing plan was kept: said where the plan says it', () => {
    expect(pageOf(plan).sentences).toContain(plan.waiting?.text);
    expect(pageOf({ ...plan, waiting: null }).sentences.join(' ')).not.toContain('waiting for the next forecast');
    const text = '"Drop the mainsail" should have begun an hour ago: it is placed anew.';
    const overdue = [{ jobId: 'drop', startUtc: '2026-05-27T19:12Z', halfDone: false, text }];
    const standing = { kept: true, text: 'The standing plan is kept.', overdue };
    expect(pageOf({ ...plan, standing }).sentences).toEqual(
      expect.arrayContaining(['The standing plan is kept.', text]),
    );
  });

  it('a search that was stopped: said, else not', () => {
    const said =
      'The search was stopped before it was done. Not worked out: what to do when a window passes, what waiting is worth, what would open a window.';
    expect(pageOf(plan).sentences).not.toContain(said);
    expect(pageOf(plan, { isStoppedEarly: true }).sentences).toContain(said);
  });

  it('jobs done on average beside the chance of all of them', () => {
    const fact = pageOf(plan).notes.whole.find(({ term }) => term === 'Done inside limits, on average');
    expect([fact?.figure, fact?.rest]).toEqual(['6.4', 'of 7 jobs']);
    const unknown = { ...plan, totals: { ...plan.totals, expectedJobsDone: null } };
    expect(pageOf(unknown).notes.whole.map(({ term }) => term)).not.toContain('Done inside limits, on average');
  });

  it('no plan stood before: nothing is said of changes; one did: when it was made, and what changed', () => {
    expect(pageOf(plan).changes).toBeNull();
    expect(pageOf(plan, { before: plan }).changes).toEqual({
      count: 'Nothing changed since the plan before',
      since: 'the plan of Thu 08:12',
      href: null,
      sentences: [],
    });
    const numbered = pageOf({ ...plan, planNumber: 4 }, { before: { ...plan, planNumber: 3 } });
    expect(numbered.number).toBe('Plan 4, made Thu 08:12 (Wed 20:12 UTC)');
    expect(numbered.changes).toMatchObject({
      since: 'plan 3 of Thu 08:12',
      count: 'Nothing changed since plan 3',
      href: '/plans?from=3&to=4#changes',
    });
    const jobs = plan.jobs.map((job) => (job.jobId === 'drop' ? { ...job, startUtc: '2026-05-27T23:00Z' } : job));
    expect(pageOf(plan, { before: { ...plan, jobs } }).changes?.sentences).toEqual([
      expect.stringMatching(
        /^Drop the mainsail: 2 h later, Thu 28 May 13:00 instead of Thu 28 May 11:00, because .*heavy work until Thu 12:00\.$/,
      ),
    ]);
  });

  it('wind lane: known only while work is done, and the no-go of that work with it', () => {
    const lane = pageOf(plan).strip.values[0];
    const noGo = lane?.curves.find(({ kind }) => kind === 'no-go')?.values ?? [];
    const at = lane?.epochMs.findIndex((epochMs) => epochMs >= Date.UTC(2026, 4, 28, 1, 20)) ?? -1;
    expect(noGo[at]).toBe(18);
    const night = lane?.epochMs.findIndex((epochMs) => epochMs >= Date.UTC(2026, 4, 28, 11)) ?? -1;
    expect([noGo[night], lane?.curves[1]?.values[night]]).toEqual([null, null]);
    expect(lane?.curves[0]?.values[night]).toBeGreaterThan(0);
  });

  it('wind lane, one job ending where the next begins: each has its own line, from its start to its end', () => {
    const drop = plan.entries.find(({ jobId }) => jobId === 'drop');
    const oil = plan.entries.find(({ jobId }) => jobId === 'oil');
    if (drop === undefined || oil === undefined) throw new Error('no drop or no oil in the fixture');
    const entries = [drop, { ...oil, startUtc: drop.endUtc, endUtc: '2026-05-28T02:10Z' }];
    const lane = pageOf({ ...plan, entries }).strip.values[0];
    const median = lane?.curves.find(({ kind }) => kind === 'median')?.values ?? [];
    const lines = spansOfKnown(lane?.epochMs ?? [], median);
    expect(lines).toEqual([
      ['2026-05-28T01:00Z', '2026-05-28T01:50Z'],
      ['2026-05-28T01:50Z', '2026-05-28T02:10Z'],
    ]);
  });

  it('alertness: known to the end of the last entry, unknown beyond it', () => {
    const entries = plan.entries.filter(({ startUtc }) => startUtc < '2026-05-29T00:00Z');
    const lastEpochMs = Math.max(...entries.map(({ endUtc }) => Date.parse(endUtc)));
    const lane = pageOf({ ...plan, entries }).strip.values.find(({ id }) => id === 'alertness');
    const known = (lane?.epochMs ?? []).filter((_, i) => (lane?.curves[0]?.values[i] ?? null) !== null);
    expect(known.at(-1)).toBeLessThanOrEqual(lastEpochMs);
    expect(lastEpochMs - (known.at(-1) ?? 0)).toBeLessThan(3_600_000);
    expect(lane?.unknown.at(-1)?.toEpochMs).toBe(lane?.epochMs.at(-1));
  });
});

describe('watch bill', () => {
  it('no minute between now and the last entry is left out', () => {
    const rows = rowsOf();
    const spans = rows.map(({ ship }) => ship.split('–'));
    expect(spans[0]?.[0]).toBe('08:12');
    spans.slice(1).forEach(([from], i) => expect(from).toBe(spans[i]?.[1]));
  });

  it('work: hours on both clocks, steps, handling, sail, place, wind with its spread, sleepiness', () => {
    const drop = rowsOf().find(({ what }) => what === 'Drop the mainsail');
    expect(drop).toMatchObject({
      kind: 'work',
      ship: '13:00–13:50',
      utc: 'Thu 01:00–01:50',
      lasts: '50 min',
      rest: 'all of it',
      handling: 'running off',
      sail: 'headsail only',
      place: 'deck',
      deckWind: '9 kn (6 to 12)',
      light: 'day',
      sleepiness: '4.0 to 5.0',
      href: '#job-drop',
    });
  });

  it('days begin on the ship’s clock', () => {
    const days = watchBill(view, times).days.map(({ day }) => day);
    expect(days[0]).toBe('Thu 28 May');
    expect(new Set(days).size).toBe(days.length);
  });

  it('work in two goes: which of them', () => {
    const first = plan.entries.find(({ jobId }) => jobId === 'stitch');
    if (first === undefined) throw new Error('no stitch in the fixture');
    const later = { ...first, startUtc: '2026-05-30T04:00Z', endUtc: '2026-05-30T05:00Z' };
    const rows = rowsOf({ ...plan, entries: [...plan.entries, later] }).filter(({ what }) => what.startsWith('Stitch'));
    expect(rows.map(({ rest }) => rest.slice(0, 6))).toEqual(['1 of 2', '2 of 2']);
  });

  it('sleep: alarm, and the look-out rule stands with the bill; nobody sleeps: it does not', () => {
    expect(rowsOf().find(({ kind }) => kind === 'sleep')?.rest).toBe('alarm at 11:40');
    expect(watchBill(view, times).lookout).toMatch(/COLREG Rule 5/);
    const awake = { ...plan, entries: plan.entries.filter(({ kind }) => kind !== 'sleep') };
    expect(watchBill({ ...view, plan: awake }, times).lookout).toBeNull();
  });

  it('a wait needs nobody: the watch goes on over it', () => {
    const [drop] = plan.entries.filter(({ jobId }) => jobId === 'drop');
    if (drop === undefined) throw new Error('no drop in the fixture');
    const wait = { ...drop, kind: 'wait' as const, startUtc: '2026-05-28T03:00Z', endUtc: '2026-05-28T09:00Z' };
    const watches = (shown: Plan): number => rowsOf(shown).filter(({ kind }) => kind === 'watch').length;
    expect(watches({ ...plan, entries: [...plan.entries, wait] })).toBe(watches(plan));
  });

  it('conditional work is marked', () => {
    expect(rowsOf().find(({ what }) => what === 'Patch the spray hood')?.kind).toBe('conditional');
  });
});

describe('reasons of a job', () => {
  const paragraph = (reason: JobReason, label: string): string =>
    [...reason.paragraphs, ...reason.folded].find((one) => one.label === label)?.text ?? 'absent';

  it('probability in figures and in a word, room in its unit and in usual errors', () => {
    const { facts } = reasonOf('drop');
    expect(facts[0]).toMatchObject({ figure: '86', rest: 'of 100 ± 4', below: 'likely' });
    expect(facts.find(({ term }) => term === 'Room')?.below).toBe(
      '15 of 18 kn at Thu 13:00; 1.4 σ: between one and two usual forecast errors',
    );
  });

  it('why then, why not earlier, fallback, decision time', () => {
    const drop = reasonOf('drop');
    expect(paragraph(drop, 'Why then')).toMatch(/^In 24 kn true/);
    expect(paragraph(drop, 'Why not earlier')).toMatch(/^Not this morning/);
    expect(paragraph(drop, 'If not')).toBe('start Fri 07:20 to 09:10, running off: 71 of 100.');
    expect(paragraph(drop, 'Decide by')).toBe('Thu 15:20 (Thu 03:20 UTC)');
  });

  it('unplanned: nearest miss, what would help, what would open a window with a link to its start', () => {
    const { wouldBuy } = reasonOf('block');
    expect(wouldBuy).toEqual([
      {
        text: expect.stringMatching(/^The work in two, .* 83 of 100\.$/) as string,
        href: '/windows?job=block&handling=hold-course&start=2026-05-28T23:30Z',
      },
    ]);
    const block = reasonOf('block', { wouldBuy: [] });
    expect(block.standing).toMatch(/^Not planned/);
    expect(block.when).toBeNull();
    expect(paragraph(block, 'What would help')).toMatch(/^The lee of land/);
    expect(paragraph(reasonOf('block'), 'What would help')).toBe('absent');
  });

  it('bought under a handling the job does not know: the link leaves it out', () => {
    const [bought] = plan.jobs.find(({ jobId }) => jobId === 'block')?.wouldBuy ?? [];
    const { wouldBuy } = reasonOf('block', { wouldBuy: [{ ...bought, handling: 'heave-to' }] });
    expect(wouldBuy[0]?.href).toBe('/windows?job=block&start=2026-05-28T23:30Z');
  });

  it('done inside limits stands beside stays inside limits, and says what it allows for', () => {
    const { facts } = reasonOf('drop');
    expect(facts.map(({ term }) => term)).toEqual(['Stays inside limits', 'Done inside limits', 'Room']);
    expect(facts[1]).toMatchObject({
      figure: '83',
      rest: 'of 100',
      below: 'if the work runs short or long; caught halfway in 4',
    });
    const never = reasonOf('drop', { coreInterruptedProbability: 0 });
    expect(never.facts[1]?.below).toBe('if the work runs short or long');
    expect(reasonOf('drop', { doneInsideLimitsProbability: null }).facts).toHaveLength(2);
  });

  it('the plan that is left: its sentence, and its starts by name and handling; none worked out: nothing', () => {
    const { planLeft } = reasonOf('drop');
    expect(planLeft?.text).toMatch(/^If at Thu 28 May 15:20 the wind over the deck is still above 18\.0 kn/);
    expect(planLeft?.starts).toEqual([
      'Thu 28 May 17:40: Oil the gooseneck bolt, holding course',
      'Fri 29 May 07:20: Drop the mainsail, running off',
    ]);
    expect(reasonOf('drop', { fallbackPlan: null }).planLeft).toBeNull();
  });
});

/** Steps of the IPCC scale (Guidance Note 2010, table 1), from memory. */
describe('chanceWord', () => {
  it.each([
    [1, 'virtually certain'],
    [0.99, 'virtually certain'],
    // Shown as 99 and as 98 of 100: the word is that of the figure beside it (our own rule).
    [0.986, 'virtually certain'],
    [0.984, 'very likely'],
    [0.9, 'very likely'],
    [0.66, 'likely'],
    [0.5, 'about as likely as not'],
    [0.33, 'unlikely'],
    [0.1, 'very unlikely'],
    [0.01, 'exceptionally unlikely'],
  ])('%d: %s', (probability, word) => {
    expect(chanceWord(probability)).toBe(word);
  });

  it('room below nothing is beyond the limit, and rounds towards it', () => {
    expect([roomWord(-0.04), roomWord(0.99), roomWord(2)]).toEqual([
      '−0.1 σ: beyond the limit',
      '0.9 σ: thin, less than one usual forecast error',
      '2.0 σ: more than two usual forecast errors',
    ]);
  });
});
