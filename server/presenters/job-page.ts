import type { Job, JobFile } from '../../lib/jobs/index.ts';
import { totalMinutes } from '../../lib/brief/index.ts';
import type { JobOrder, Passage } from '../../lib/passage/index.ts';
import { STITCH_RATES } from '../../lib/stock/index.ts';
import { ownFigures } from '../job-forms/index.ts';
import type { Clock } from './clock.ts';
import type { Fact } from './fact.ts';
import { needText, plainFigure } from './job-figures.ts';
import { type OwnRow, ownRow, type ValueNames } from './job-own-words.ts';
import { type PlanWords, planWords } from './job-plan-words.ts';
import { type ReadinessView, readinessViews } from './job-readiness.ts';
import { worksNamed } from './job-sources.ts';
import { type StepView, stepViews } from './job-steps-view.ts';
import { groupWords, priorityText } from './job-words.ts';
import { documentClock, type JobDocument } from './job-document.ts';
import { standingIn } from './units/plan-texts.ts';
import { sentenceIn } from './units/sentence.ts';
import { PLAIN_UNITS, type ShownUnits } from './units/shown-units.ts';
import { versionText } from './notices.ts';
import type { PlanStanding } from './plan-standing.ts';
import { timeTexts, type TimeTexts } from './time-texts.ts';

/** One job whole, to be read. */
export interface JobPage {
  readonly kind: 'job';
  /** Of the passage. */
  readonly name: string;
  readonly clock: Clock;
  readonly version: string;
  readonly jobId: string;
  readonly title: string;
  readonly origin: string;
  readonly plan: PlanWords;
  readonly windowsHref: string;
  readonly sheetHref: string;
  readonly readiness: ReadinessView;
  readonly facts: readonly Fact[];
  readonly after: readonly JobLink[];
  readonly before: readonly JobLink[];
  readonly isFromLibrary: boolean;
  readonly own: readonly OwnRow[];
  readonly steps: readonly StepView[];
  readonly words: readonly WordList[];
  readonly works: readonly string[];
  /** Its removal was asked for, and these jobs come after it; empty: nothing was. */
  readonly removalAsked: readonly string[];
}

export interface JobLink {
  readonly href: string;
  readonly text: string;
}

export interface WordList {
  readonly title: string;
  readonly lines: readonly string[];
}

interface JobInput {
  readonly document: JobDocument;
  readonly job: Job;
  readonly entry: JobFile;
  readonly standing: PlanStanding;
  readonly nowEpochMs: number;
  readonly isRemovalAsked: boolean;
  /** Of the reader; absent: kn, m and °C. */
  readonly units?: ShownUnits;
}

/** Address of a job's own page. */
export const jobPageHref = (jobId: string): string => `/jobs/${encodeURIComponent(jobId)}`;

/** Address of its deck sheet. */
export const sheetHref = (jobId: string): string => `${jobPageHref(jobId)}/sheet`;

export function jobPage(input: JobInput): JobPage {
  const { document, job, entry, nowEpochMs, isRemovalAsked, units = PLAIN_UNITS } = input;
  const standing = standingIn(input.standing, units);
  const { passage } = document;
  const times = timeTexts(passage.settings.shipTimeOffsetMin);
  const names = valueNames(passage, job);
  const readiness = readinessViews(passage, times).get(job.id);
  if (readiness === undefined) throw new Error(`no readiness of ${job.id}`);
  const later = passage.jobs.filter(({ after }) => after.includes(job.id));
  return {
    kind: 'job',
    name: passage.name,
    clock: documentClock(passage, nowEpochMs),
    version: versionText(document),
    jobId: job.id,
    title: job.name,
    origin: originText(job),
    plan: planWords(standing, job.id, times),
    windowsHref: `/windows?job=${encodeURIComponent(job.id)}`,
    sheetHref: sheetHref(job.id),
    readiness,
    facts: [
      ...workFacts(job, entry, names, passage),
      ...orderFacts(passage.orders.jobs.get(job.id) ?? null, times, names),
    ],
    after: passage.jobs.filter(({ id }) => job.after.includes(id)).map(linkOf),
    before: later.map(linkOf),
    isFromLibrary: job.from !== null,
    own: ownFigures(entry, job).map((figure) => ownRow(figure, names, units)),
    steps: stepViews(
      job,
      {
        doneStepIds: passage.orders.jobs.get(job.id)?.doneStepIds ?? [],
        isOwnSeam: (stepId) =>
          hasOwnSeam(entry) && job.seam?.stepId === stepId && entry.minutes?.[stepId] === undefined,
      },
      names.sailState,
      units,
    ),
    words: wordLists(job, units),
    works: worksNamed(Object.values(job.provenance)),
    removalAsked: isRemovalAsked ? later.map(({ name }) => name) : [],
  };
}

/** Minutes of the sewing then follow from what the entry says of the seam. */
const hasOwnSeam = ({ lengthM, rows, cloth }: JobFile): boolean =>
  [lengthM, rows, cloth].some((figure) => figure !== undefined);

const linkOf = ({ id, name }: Job): JobLink => ({ href: jobPageHref(id), text: name });

function originText({ from, group }: Job): string {
  const about = groupWords[group];
  return from === null
    ? `${about}. A job of your own: all its figures are yours.`
    : `${about}. From the library, job “${from}”.`;
}

/** Names as the boat and the job have them; an id without a name stands for itself. */
function valueNames({ boat }: Passage, job: Job): ValueNames {
  const nameOf = (list: readonly { readonly id: string; readonly name: string }[], id: string): string =>
    list.find((one) => one.id === id)?.name ?? id.replaceAll('-', ' ');
  return {
    handling: (id) => nameOf(boat.handlings, id),
    sailState: (id) => nameOf(boat.sailStates, id),
    step: (id) => nameOf(job.steps, id),
  };
}

function workFacts(job: Job, entry: JobFile, names: ValueNames, passage: Passage): readonly Fact[] {
  const { p50Min, p80Min, p90Min } = totalMinutes(job);
  const isDefault = (key: string): string => (passage.defaultsUsed.includes(`jobs.${job.id}.${key}`) ? 'default' : '');
  return [
    {
      term: 'Work',
      figure: `${Math.round(p50Min)} min`,
      rest: `half of tries; 80 of 100 within ${Math.round(p80Min)} min, 90 within ${Math.round(p90Min)} min`,
      below: 'at library pace by day, warm and rested; waits come on top',
    },
    { term: 'Priority', figure: priorityText(job.priorityWeight), rest: isDefault('priority') },
    {
      term: 'The boat meanwhile',
      figure: job.handlings.map(names.handling).join(', or '),
      rest: entry.handlings === undefined ? 'default' : '',
    },
    {
      term: 'Worked with',
      figure: job.sailStates.length === 0 ? 'any sail' : job.sailStates.map(names.sailState).join(', or '),
      rest: '',
    },
    ...(job.seam === null
      ? []
      : [
          {
            term: 'Seam',
            figure: `${plainFigure(job.seam.lengthM)} m`,
            rest: `${job.seam.rowCount} ${job.seam.rowCount === 1 ? 'row' : 'rows'}, ${clothName(job.seam.cloth)}`,
          },
        ]),
  ];
}

const clothName = (cloth: string): string => STITCH_RATES.find((rate) => rate.cloth === cloth)?.name ?? cloth;

/** What the user fixes of the plan; only what is said. */
function orderFacts(order: JobOrder | null, times: TimeTexts, names: ValueNames): readonly Fact[] {
  if (order === null) return [];
  const instant = (term: string, epochMs: number | null): readonly Fact[] =>
    epochMs === null ? [] : [{ term, figure: times.full(epochMs), rest: times.utc(epochMs) }];
  return [
    ...(order.isDone ? [{ term: 'Done', figure: 'all of it', rest: '' }] : []),
    ...(order.doneMin > 0
      ? [{ term: 'Worked of the step begun', figure: `${plainFigure(order.doneMin)} min`, rest: '' }]
      : []),
    ...instant('Not before', order.notBeforeEpochMs),
    ...instant('Starts exactly at', order.lockedStartEpochMs),
    ...instant('Finished by', order.finishByEpochMs),
    ...(order.lockedHandlingId === null
      ? []
      : [{ term: 'Worked only under', figure: names.handling(order.lockedHandlingId), rest: '' }]),
    ...(order.tools.length === 0
      ? []
      : [{ term: 'Keeps until its waits are over', figure: order.tools.join(', '), rest: '' }]),
  ];
}

function wordLists(job: Job, units: ShownUnits): readonly WordList[] {
  const one = (text: string | null): readonly string[] => (text === null ? [] : [text]);
  return [
    { title: 'Cautions', lines: job.cautions },
    { title: 'Safe points', lines: job.safePoints },
    { title: 'Point of no return', lines: one(job.pointOfNoReturn) },
    { title: 'To turn back', lines: one(job.turnBack) },
    { title: 'Tools', lines: job.needsTools },
    { title: 'Makes', lines: job.makes.map(needText) },
    {
      title: 'Checks afterwards',
      lines: job.checksAfter.map(
        ({ afterMin, look }) => `${afterMin === 0 ? 'At once' : `After ${plainFigure(afterMin)} min`}: ${look}`,
      ),
    },
  ]
    .filter(({ lines }) => lines.length > 0)
    .map(({ title, lines }) => ({ title, lines: lines.map((line) => sentenceIn(line, units)) }));
}
