import { describe, expect, it } from 'vitest';
import { JOB_LIBRARY, libraryJob, type JobFile } from '../../lib/jobs/index.ts';
import { sources } from '../../lib/sources/index.ts';
import { findJob } from '../../server/job-forms/index.ts';
import { jobPage, type JobPage } from '../../server/presenters/job-page.ts';
import { provenanceText, worksNamed } from '../../server/presenters/job-sources.ts';
import { jobsPage, type JobsPage } from '../../server/presenters/jobs-page.ts';
import type { JobDocument } from '../../server/presenters/job-document.ts';
import type { PlanStanding } from '../../server/presenters/plan-standing.ts';
import { view } from '../pages/fixture-windows.ts';
import { documentWith } from './jobs-document.ts';

const PLANNING: PlanStanding = { kind: 'planning', sinceEpochMs: 0 };
const list = (document: JobDocument, standing: PlanStanding = PLANNING): JobsPage =>
  jobsPage({ document, standing, nowEpochMs: 0 });
function one(document: JobDocument, jobId: string, standing: PlanStanding = PLANNING): JobPage {
  const found = findJob(document.file, document.passage, jobId);
  if (found === null) throw new Error(`no job ${jobId}`);
  return jobPage({ document, ...found, standing, nowEpochMs: 0, isRemovalAsked: false });
}
const rowOf = (page: JobsPage, jobId: string) => page.rows.find((row) => row.jobId === jobId);

const jobs: readonly JobFile[] = [
  { id: 'drop', from: 'drop-main' },
  { id: 'sew', from: 'stitch-tear', after: ['drop'], lengthM: 30 },
  { id: 'mine', steps: [ownStep('a')], name: 'Mine' },
];

function ownStep(id: string): NonNullable<JobFile['steps']>[number] {
  return { id, name: 'Do it', place: 'below', work: { leastMin: 1, likelyMin: 2, mostMin: 3 }, limits: {} };
}

describe('jobsPage', () => {
  it('no jobs: what to do first', () => {
    const page = list(documentWith([]));
    expect([page.rows, page.summary]).toEqual([[], expect.stringMatching(/^No jobs yet\. Add what is broken/)]);
  });

  it('too little in the locker: not ready, with the amount; nothing listed: not known', () => {
    const locker = [
      { item: 'waxed twine', unit: 'm', onBoard: 20, keep: 15 },
      { item: 'needles', unit: 'pieces', onBoard: 99 },
    ];
    const row = rowOf(list(documentWith(jobs, { locker })), 'sew');
    expect([row?.status, row?.readiness]).toEqual(['not', 'not ready']);
    expect(row?.reason).toMatch(/^waxed twine: short by [\d.]+ m; [\d.]+ m needed, 20 m on board, 15 m reserve/);
    expect(rowOf(list(documentWith(jobs)), 'sew')?.status).toBe('unknown');
  });

  it('what is own: counted against the library, the name not among it; a job of one’s own is all own', () => {
    const page = list(documentWith([...jobs, { id: 'named', from: 'reef', name: 'Mine too' }]));
    expect(['drop', 'sew', 'mine', 'named'].map((id) => rowOf(page, id)?.own)).toEqual([
      '',
      '1 of its own',
      'all its own',
      '',
    ]);
  });

  it('a plan that stands: when and how sure; none: said', () => {
    const ready: PlanStanding = { kind: 'ready', view };
    const plan = rowOf(list(documentWith(jobs), ready), 'drop')?.plan;
    expect(plan?.when).toMatch(/^\w{3} \d\d:\d\d$/);
    expect(plan?.more).toMatch(/^inside its limits in \d+ of 100/);
    expect(rowOf(list(documentWith(jobs)), 'drop')?.plan).toEqual({ when: '', more: 'the plan is being made' });
    expect(rowOf(list(documentWith(jobs), ready), 'mine')?.plan.more).toBe('not in the plan that stands');
  });

  it('the library to add from holds every job once, by its group', () => {
    const ids = list(documentWith([])).library.flatMap(({ jobs: of }) => of.map(({ id }) => id));
    expect(ids.toSorted()).toEqual(JOB_LIBRARY.map(({ id }) => id).toSorted());
  });

  it('proposals name jobs, not ids, and each has a button or nothing to add', () => {
    const page = list(
      documentWith([
        { id: 'drop', from: 'drop-main' },
        { id: 'oil', from: 'fastener-oil' },
        { id: 'bolt', from: 'gooseneck-bolt', after: ['drop'] },
      ]),
    );
    expect(page.proposals.map(({ text }) => text).join('\n')).toContain('“Oil a seized fastener');
    expect(page.proposals.every(({ text }) => !/"\w+"/.test(text))).toBe(true);
    expect(new Set(page.proposals.map(({ button }) => button))).toContain('Add it');
  });
});

describe('jobPage', () => {
  it('what is own beside the library’s, with units', () => {
    const document = documentWith([
      {
        id: 'drop',
        from: 'drop-main',
        limits: { daylight: 'required', deckWindKn: { ideal: 5, caution: 8, noGo: 10 } },
        minutes: { lower: { leastMin: 2, likelyMin: 3, mostMin: 4 } },
        handlings: ['run-off'],
      },
    ]);
    const own = one(document, 'drop').own;
    expect(own.map(({ place, own: text }) => [place, text])).toEqual([
      ['handlings', 'Run off before the wind'],
      ['limits.daylight', 'required'],
      ['limits.deckWindKn', '5 / 8 / 10 kn'],
      ['minutes.lower', '2 / 3 / 4 min'],
    ]);
    const before = libraryJob('drop-main')?.steps.find(({ id }) => id === 'lower')?.work;
    expect(own.at(-1)?.library).toBe(`${before?.leastMin} / ${before?.likelyMin} / ${before?.mostMin} min`);
    expect(own[2]?.library).toContain(', or ');
  });

  it('marks: own figures own, our defaults default, works in words', () => {
    const document = documentWith([{ id: 'sew', from: 'stitch-tear', limits: { visibilityLeastNm: 2 } }]);
    const [step] = one(document, 'sew').steps;
    expect(step?.limits.find(({ text }) => text.startsWith('sight'))).toEqual({
      text: 'sight from 2 nm',
      mark: 'own',
      source: '',
    });
    const library = one(documentWith([{ id: 'aloft', from: 'aloft' }]), 'aloft').steps;
    expect(library.flatMap(({ limits }) => limits).find(({ text }) => text.startsWith('sight'))?.mark).toBe('default');
  });

  it('a seam of one’s own: minutes are said to come from it, unless they are written out', () => {
    const sewn = (more: object) =>
      one(documentWith([{ id: 'sew', from: 'stitch-tear', lengthM: 2, ...more }]), 'sew').steps[1];
    expect(sewn({})?.minutes.source).toMatch(/^worked out from the seam: 0\.2 \/ 0\.3 \/ 0\.45 m an hour/);
    const minutes = { sew: { leastMin: 1, likelyMin: 2, mostMin: 3 } };
    expect(sewn({ minutes })?.minutes).toEqual({ text: '1 / 2 / 3 min', mark: 'own', source: '' });
  });

  it('every library job: all parts in words, no key of the program and no id of a source left', () => {
    for (const { id } of JOB_LIBRARY) {
      const page = one(documentWith([{ id: 'it', from: id }]), 'it');
      const said = JSON.stringify([page.facts, page.steps, page.words, page.works, page.readiness]);
      expect(said, id).not.toMatch(/\b[A-Z]{3,}_[A-Z0-9_]+\b|undefined|NaN|\bnull null\b/);
      expect(page.own, id).toEqual([]);
      expect(page.steps.length, id).toBe(libraryJob(id)?.steps.length);
    }
  });

  it('a wait: its hours, and the hours counted, which four of five stay within', () => {
    const [step] = one(documentWith([{ id: 'oil', from: 'fastener-oil' }]), 'oil').steps;
    expect(step?.wait?.text).toMatch(/^Then it soaks [\d.]+ \/ [\d.]+ \/ [\d.]+ h by itself, counted as [\d.]+ h/);
    expect(step?.isSafePoint).toBe(true);
  });

  it('jobs before and after it', () => {
    const document = documentWith(jobs);
    expect(one(document, 'sew').after.map(({ href }) => href)).toEqual(['/jobs/drop']);
    expect(one(document, 'drop').before.map(({ href }) => href)).toEqual(['/jobs/sew']);
  });
});

describe('sources in words', () => {
  it('every id of the bibliography becomes its title', () => {
    for (const [id, { title }] of Object.entries(sources)) expect(provenanceText(`${id} (part)`)).toContain(title);
  });

  it('works are named once', () => {
    const [id = '', { title } = { title: '' }] = Object.entries(sources)[0] ?? [];
    expect(worksNamed([`${id} (a)`, `our default; ${id}`])).toEqual([expect.stringContaining(title)]);
  });
});
