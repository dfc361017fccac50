import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { JOB_LIBRARY, type JobFile } from '../../lib/jobs/index.ts';
import {
  editedJob,
  findJob,
  mergedForm,
  moveSteps,
  newJob,
  untouchedForm,
  type SentForm,
} from '../../server/job-forms/index.ts';
import { documentClock, type JobDocument } from '../../server/presenters/job-document.ts';
import { jobEditPage, type PlacedProblem } from '../../server/presenters/job-edit-page.ts';
import { BLANK_ENTRY, formGroups } from '../../server/presenters/job-form.ts';
import { jobPage } from '../../server/presenters/job-page.ts';
import { jobsPage } from '../../server/presenters/jobs-page.ts';
import type { JobsPages } from '../../server/presenters/jobs-pages.ts';
import type { PlanStanding } from '../../server/presenters/plan-standing.ts';
import { renderJobs } from '../../views/render.tsx';
import { view } from '../pages/fixture-windows.ts';
import { documentWith, editedIn, sentWith } from '../presenters/jobs-document.ts';

const standing: PlanStanding = { kind: 'ready', view };
const html = (page: JobsPages): string => renderJobs(page, { extent: 'document', style: 'day' });
const jobs: readonly JobFile[] = [
  { id: 'drop', from: 'drop-main', doneSteps: ['settle'], limits: { daylight: 'required' } },
  { id: 'stitch', from: 'stitch-tear', after: ['drop'], lengthM: 2, startUtc: '2026-05-28T10:00Z' },
];
const document = documentWith(jobs, { locker: [{ item: 'needles', unit: 'pieces', onBoard: 1 }] });

const listHtml = (of: JobDocument): string => html(jobsPage({ document: of, standing, nowEpochMs: 0 }));
function jobHtml(of: JobDocument, jobId: string, isRemovalAsked = false): string {
  const found = findJob(of.file, of.passage, jobId);
  if (found === null) throw new Error(jobId);
  return html(jobPage({ document: of, ...found, standing, nowEpochMs: 0, isRemovalAsked }));
}
function editHtml(
  sent: SentForm,
  problems: readonly PlacedProblem[] = [],
  keptNow: ReadonlyMap<string, string> = new Map(),
): string {
  const head = {
    name: 'Somewhere',
    clock: documentClock(document.passage, 0),
    title: 'A job',
    action: '/jobs/drop/edit',
    backHref: '/jobs/drop',
    version: '1.1',
    base: '{}',
    note: 'A note.',
    lost: ['Lost: that'],
    asText: {
      action: '/jobs/drop/text',
      text: '{"id": "drop"}',
      problems: problems.map(({ problem }) => problem),
      isOpen: true,
    },
  };
  return html(jobEditPage(head, { form: sent.base, values: sent.values, library: null, problems, keptNow }));
}

const edited = editedIn(document, 'drop');
const problem = { code: 'x', where: 'y', what: 'Wrong.', expected: 'right', remedy: 'Mend it.' };
const merged = mergedForm(sentWith(edited, { name: 'Ours' }), { ...edited.entry, name: 'Theirs' }, edited.around);
const everyPage: readonly (readonly [string, string])[] = [
  ['list', listHtml(document)],
  ['list without jobs', listHtml(documentWith([]))],
  ['job, its removal asked for', jobHtml(document, 'drop', true)],
  ['job that is locked', jobHtml(document, 'stitch')],
  ['form', editHtml(untouchedForm(edited), [{ problem, input: 'name' }])],
  ['form, a step split', editHtml(moveSteps(untouchedForm(edited), { kind: 'split', stepId: 'lash' }, edited.around))],
  ['form after a conflict', editHtml(merged.form, [], merged.keptNow)],
  ['form of a new job', editHtml(untouchedForm(newJob(document, BLANK_ENTRY)))],
  ['no passage', html({ kind: 'failed', problems: [problem] })],
  ...JOB_LIBRARY.map(({ id }): readonly [string, string] => {
    const of = documentWith([{ id: 'it', from: id }]);
    const found = findJob(of.file, of.passage, 'it');
    if (found === null) throw new Error(id);
    return [`form of ${id}`, editHtml(untouchedForm(editedJob(of, found)))];
  }),
];

describe.each(everyPage)('page: %s', (_, page) => {
  it('one main, one first heading, nothing the content policy would drop', () => {
    expect(page.match(/<main /g)).toHaveLength(1);
    expect(page.match(/<h1/g)).toHaveLength(1);
    expect(page).not.toMatch(/ style="| on\w+="|<style|<script>|javascript:/);
  });

  it('nothing that should have been a number or a word', () => {
    expect(page).not.toMatch(/NaN|undefined|Infinity|\[object|>null</);
  });

  it('ids are not repeated; labels, descriptions and links within the page have their targets', () => {
    const ids = [...page.matchAll(/ id="([^"]+)"/g)].map(([, id = '']) => id);
    expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([]);
    const wanted = [...page.matchAll(/ (?:aria-labelledby|aria-describedby|for)="([^"]+)"| href="#([^"]+)"/g)].map(
      ([, named, linked]) => named ?? linked ?? '',
    );
    expect(wanted.filter((id) => !ids.includes(id))).toEqual([]);
  });

  it('every form that changes the passage says which state of it', () => {
    const forms = [...page.matchAll(/<form[^>]*action="(?!\/style)[^"]*"[^>]*>(.*?)<\/form>/gs)].map(
      ([, inside = '']) => inside,
    );
    expect(forms.filter((inside) => !/name="version" value="\d+\.\d+"/.test(inside))).toEqual([]);
  });
});

describe('the form', () => {
  it('holds every input with what it shows', () => {
    const form = untouchedForm(edited);
    const page = editHtml(form);
    const names = formGroups(form.base).flatMap(({ fields }) => fields.map(({ name }) => name));
    expect(names.filter((name) => !page.includes(`name="${name}"`))).toEqual([]);
    expect(page).toMatch(/name="doneSteps" value="settle" checked/);
    expect(page).toContain('Not in force: for every step at once it says daylight needed.');
  });

  it('what is wrong: at the input, marked for those who hear it, and linked from above', () => {
    const page = editHtml(untouchedForm(edited), [{ problem, input: 's.lower.work.likelyMin' }]);
    expect(page).toMatch(
      /<details class="form-step" open id="step-lower">|<details open[^>]*id="step-lower"|id="step-lower"[^>]*open/,
    );
    expect(page).toMatch(
      /id="f-s-lower-work-likelyMin"[^>]*aria-invalid="true"|aria-invalid="true"[^>]*id="f-s-lower-work-likelyMin"/,
    );
    expect(page).toContain('<a href="#f-s-lower-work-likelyMin">Step 3: Minutes, likely. Wrong.</a>');
    expect(page).toContain('Expected: right. Mend it.');
  });

  it('the first button in it saves: it is the one that Enter presses', () => {
    const page = editHtml(untouchedForm(edited));
    const form = page.slice(page.indexOf('action="/jobs/drop/edit"'));
    expect(/<button[^>]*>([^<]*)/.exec(form)?.[1]).toBe('Save');
  });
});

describe('escaping', () => {
  it('any text of the passage: no element comes of it', () => {
    const mark = '<b data-bad>"&\'';
    fc.assert(
      fc.property(fc.stringMatching(/^[ -~]{0,40}$/), (text) => {
        const odd = `${mark}${text}`.trim();
        const of = documentWith([
          {
            id: 'it',
            from: 'stitch-tear',
            name: odd,
            cautions: [odd],
            turnBack: odd,
            needsTools: [odd],
            provenance: { '*': odd },
          },
          { id: 'other', from: 'reef', name: odd, after: ['it'] },
        ]);
        const found = findJob(of.file, of.passage, 'it');
        if (found === null) throw new Error('it');
        const all = listHtml(of) + jobHtml(of, 'it', true) + editHtml(untouchedForm(editedJob(of, found)));
        expect(all).not.toContain('<b data-bad>');
        expect(all).toContain('&lt;b data-bad>');
      }),
      { seed: 4, numRuns: 10 },
    );
  });
});
