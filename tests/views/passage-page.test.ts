import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Plan } from '../../lib/planner/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import { passagePage, type PassagePage } from '../../server/presenters/passage-page.ts';
import { planPage } from '../../server/presenters/plan-page.ts';
import { chosenWindows } from '../../server/presenters/windows-choice.ts';
import { windowsPage } from '../../server/presenters/windows-page.ts';
import { renderError, renderPassage, renderPlan, renderWindows } from '../../views/render.tsx';
import { picture, plan } from '../pages/fixture-plan.ts';
import { lookAnswer, view, windowsAnswer } from '../pages/fixture-windows.ts';

const NOW_EPOCH_MS = picture.nowEpochMs;
const pageOf = (shown: Plan, jobId: string | null = null): PassagePage =>
  passagePage({ kind: 'ready', view: { ...view, plan: shown } }, { jobId, nowEpochMs: NOW_EPOCH_MS });
const document = (page: PassagePage): string => renderPassage(page, { extent: 'document', style: 'day' });

const problem: Problem = {
  code: 'passage.key-unknown',
  where: 'passage.json, boat',
  what: 'The key "sped" is not known.',
  expected: 'speedTables',
  remedy: 'Write speedTables.',
};

const planning = passagePage(
  { kind: 'planning', sinceEpochMs: NOW_EPOCH_MS - 4000 },
  { jobId: 'a b', nowEpochMs: NOW_EPOCH_MS },
);
const failedPage = passagePage({ kind: 'failed', problems: [problem] }, { jobId: null, nowEpochMs: NOW_EPOCH_MS });
const everyPage: readonly (readonly [string, string])[] = [
  ...plan.jobs.map((job) => [`job ${job.jobId}`, document(pageOf(plan, job.jobId))] as const),
  ['no jobs', document(pageOf({ ...plan, jobs: [], entries: [] }))],
  ['planning', document(planning)],
  ['failed', document(failedPage)],
  ['error', renderError({ title: 'No such page', text: 'Nothing here.' }, { extent: 'document', style: 'night' })],
];

const windowsDocument = (jobId: string, startUtc: string | null): string => {
  const chosen = chosenWindows(view, { job: jobId, part: null, handling: null });
  if (!chosen.ok || chosen.value.handlingId === null) throw new Error(`nothing chosen for ${jobId}`);
  const block = { jobId, blockIndex: 0, handlingId: chosen.value.handlingId };
  const look = startUtc === null ? null : lookAnswer({ ...block, startEpochMs: Date.parse(startUtc) }).look;
  const answer = windowsAnswer(block);
  const page = windowsPage({ view, nowEpochMs: NOW_EPOCH_MS, chosen: chosen.value, answer, look });
  return renderWindows(page, { extent: 'document', style: 'night' });
};
const planDocument = (shown: Plan): string =>
  renderPlan(planPage({ kind: 'ready', view: { ...view, plan: shown } }, NOW_EPOCH_MS), {
    extent: 'document',
    style: 'day',
  });
const otherPages: readonly (readonly [string, string])[] = [
  ...plan.jobs.map((job) => [`windows of ${job.jobId}`, windowsDocument(job.jobId, null)] as const),
  ['a start of drop', windowsDocument('drop', '2026-05-28T01:00Z')],
  ['a start of patch', windowsDocument('patch', '2026-05-28T10:00Z')],
  [
    'windows, no jobs',
    renderWindows(windowsPage({ view, nowEpochMs: NOW_EPOCH_MS, chosen: null, answer: null, look: null }), {
      extent: 'document',
      style: 'day',
    }),
  ],
  ['plan', planDocument(plan)],
  ['plan, no jobs', planDocument({ ...plan, jobs: [], entries: [] })],
  ['plan stopped', renderPlan(planPage({ kind: 'stopped' }, NOW_EPOCH_MS), { extent: 'document', style: 'day' })],
];

/** Attributes of htmx 4.0.1 that these pages use; any other is a slip of the pen. */
const KNOWN_HX = ['hx-get', 'hx-post', 'hx-target', 'hx-swap', 'hx-push-url', 'hx-trigger'];

describe.each([...everyPage, ...otherPages])('page: %s', (_, html) => {
  it('whole document with language, style and one main', () => {
    expect(html).toMatch(/^<!doctype html><html lang="en" class="(day|night)">/);
    expect(html.match(/<main /g)).toHaveLength(1);
    expect(html.match(/<h1/g)).toHaveLength(1);
  });

  it('no inline style, script or handler: the content policy would drop them', () => {
    expect(html).not.toMatch(/ style="| on\w+="|hx-on|<style|<script>|javascript:/);
  });

  it('only known htmx attributes', () => {
    const used = new Set([...html.matchAll(/ (hx-[\w:-]+)=/g)].map(([, name = '']) => name));
    expect([...used].filter((name) => !KNOWN_HX.includes(name))).toEqual([]);
  });

  it('nothing that should have been a number or a word', () => {
    expect(html).not.toMatch(/NaN|undefined|Infinity|\[object|>null</);
  });

  it('ids are not repeated, and every reference has its target', () => {
    const ids = [...html.matchAll(/ id="([^"]+)"/g)].map(([, id = '']) => id);
    expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([]);
    const wanted = [...html.matchAll(/aria-labelledby="([^"]+)"/g)].flatMap(([, list = '']) => list.split(' '));
    expect(wanted.filter((id) => !ids.includes(id))).toEqual([]);
  });
});

describe('escaping', () => {
  const mark = '<b data-bad>"&\'';

  it('any text in names, reasons and checks: no element comes of it', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (text) => {
        const odd = `${mark}${text}`;
        const jobs = plan.jobs.map((job) => ({ ...job, name: odd, why: odd, goCheck: [odd] }));
        const shown = { ...plan, passageName: odd, jobs, cautions: [odd] };
        const html = document(pageOf(shown)) + planDocument(shown);
        expect(html).not.toContain('<b data-bad>');
      }),
      { seed: 3, numRuns: 15 },
    );
  });

  it('the mark would be seen if it were let through', () => {
    expect(document(pageOf({ ...plan, passageName: mark }))).toContain('&lt;b data-bad>');
  });
});

describe('states', () => {
  it('planning: asks again by itself for the same job, and by refresh without script', () => {
    const html = document(planning);
    expect(html).toContain('hx-get="/?job=a%20b" hx-trigger="load delay:1s"');
    expect(html).toContain('<noscript><meta http-equiv="refresh" content="3"/></noscript>');
    expect(html).toContain('4 s so far');
  });

  it('planned: does not ask again', () => {
    expect(document(pageOf(plan))).not.toMatch(/http-equiv="refresh"|load delay/);
  });

  it('failed: what, where, expected and what to do, of each problem', () => {
    const html = document(failedPage).replaceAll('&quot;', '"');
    for (const text of [problem.where, problem.what, problem.expected, problem.remedy]) expect(html).toContain(text);
  });

  it('no jobs: says so and how to add them', () => {
    const html = document(pageOf({ ...plan, jobs: [], entries: [] }));
    expect(html).toContain('Nothing to mend');
    expect(html).toContain('This passage has no jobs. Add them');
  });

  it('part: the main alone', () => {
    expect(renderPassage(pageOf(plan), { extent: 'part', style: 'day' })).toMatch(/^<main id="passage">/);
  });
});

describe('figures', () => {
  it('each in the facts has its unit or what it counts', () => {
    const html = renderPassage(pageOf(plan), { extent: 'part', style: 'day' });
    const facts = [...html.matchAll(/<b>([^<]*)<\/b> <small>([^<]*)<\/small>/g)];
    expect(facts.length).toBeGreaterThan(8);
    for (const [, figure = '', rest = ''] of facts)
      expect(`${figure} ${rest}`).toMatch(/kn|nm|min|\bh\b|of 100|of \d+ jobs|\bm\b/);
  });

  it('every word of both strips stands inside its drawing', () => {
    for (const job of plan.jobs) {
      const html = renderPassage(pageOf(plan, job.jobId), { extent: 'part', style: 'day' });
      for (const [, width, height, body = ''] of html.matchAll(
        /<svg class="strip \w+" viewBox="0 0 (\d+) ([\d.]+)"(.*?)<\/svg>/gs,
      )) {
        const places = [...body.matchAll(/<text[^>]*? x="(-?[\d.]+)" y="(-?[\d.]+)"/g)];
        expect(places.length).toBeGreaterThan(15);
        for (const [, x, y] of places) {
          expect(Number(x)).toBeGreaterThanOrEqual(0);
          expect(Number(x)).toBeLessThanOrEqual(Number(width) - 8);
          expect(Number(y)).toBeGreaterThan(8);
          expect(Number(y)).toBeLessThanOrEqual(Number(height));
        }
      }
    }
  });
});
