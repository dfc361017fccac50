import type { Problem } from '../../lib/result/index.ts';
import { formatUtc } from '../../lib/time/index.ts';
import type { EntryField } from '../entry-forms/index.ts';
import { carried } from '../entry-forms/index.ts';
import type { FoundJob } from '../job-forms/index.ts';
import { FORBID_FIELDS, forbiddenOf, orderFields, orderTexts } from '../order-forms/index.ts';
import type { Clock } from './clock.ts';
import { documentClock, type JobDocument } from './job-document.ts';
import { type Entered, entryPage, type EntryPage } from './entry-page.ts';
import { jobPageHref } from './job-page.ts';
import { hoursHref } from './job-orders.ts';
import { versionText } from './notices.ts';
import type { PlanStanding } from './plan-standing.ts';
import { planWords, type PlanWords } from './job-plan-words.ts';
import { epochOf, timeTexts } from './time-texts.ts';

/** What is fixed about one job: its lock, its bounds, the hours in which it is not worked. */
export interface HoursPage {
  readonly kind: 'job-hours';
  /** Of the passage. */
  readonly name: string;
  readonly clock: Clock;
  readonly version: string;
  readonly jobId: string;
  readonly title: string;
  /** How the plan has it now. */
  readonly plan: PlanWords;
  readonly jobHref: string;
  readonly windowsHref: string;
  /** Comes after other jobs by its own form. */
  readonly editHref: string;
  readonly orders: EntryPage;
  readonly forbid: EntryPage;
  readonly allowAction: string;
  readonly spans: readonly SpanRow[];
}

/** Forbidden hours, and what finds them again. */
export interface SpanRow {
  readonly text: string;
  readonly utc: string;
  readonly hidden: readonly (readonly [name: string, value: string])[];
}

/** What was sent and not saved, by the form it came from. */
export interface RefusedHours {
  readonly form: 'orders' | 'forbid';
  readonly texts: ReadonlyMap<string, string>;
  readonly problems: readonly Problem[];
  readonly version: string;
  /** What the form showed, where somebody has saved meanwhile; null: nobody has. */
  readonly was: ReadonlyMap<string, string> | null;
}

interface HoursInput {
  readonly document: JobDocument;
  readonly found: FoundJob;
  readonly standing: PlanStanding;
  readonly nowEpochMs: number;
  readonly refused: RefusedHours | null;
}

export function hoursPage({ document, found, standing, nowEpochMs, refused }: HoursInput): HoursPage {
  const { file, passage } = document;
  const { entry, job, index } = found;
  const { shipTimeOffsetMin } = passage.settings;
  const times = timeTexts(shipTimeOffsetMin);
  const href = hoursHref(job.id);
  const fields = orderFields(handlingOptions(document, found));
  const entered = (form: RefusedHours['form']): Entered => ({
    document,
    nowEpochMs,
    refused: refused?.form === form ? refused : null,
  });
  return {
    kind: 'job-hours',
    name: passage.name,
    clock: documentClock(passage, nowEpochMs),
    version: versionText(document),
    jobId: job.id,
    title: job.name,
    plan: planWords(standing, job.id, times),
    jobHref: jobPageHref(job.id),
    windowsHref: `/windows?job=${encodeURIComponent(job.id)}`,
    editHref: `${jobPageHref(job.id)}/edit`,
    orders: formPage(entered('orders'), fields, {
      texts: orderTexts(entry, shipTimeOffsetMin),
      place: `jobs[${index}]`,
      title: 'Locked, and bounds',
      action: href,
    }),
    forbid: formPage(entered('forbid'), FORBID_FIELDS, {
      texts: new Map(FORBID_FIELDS.map(({ name }) => [name, ''])),
      place: `forbidden[${file.forbidden?.length ?? 0}]`,
      title: 'Forbid hours',
      action: `${jobPageHref(job.id)}/forbid`,
    }),
    allowAction: `${jobPageHref(job.id)}/allow`,
    spans: forbiddenOf(file, job.id).map(({ fromUtc, toUtc, job: jobId }) => {
      const span = { fromEpochMs: epochOf(fromUtc), toEpochMs: epochOf(toUtc) };
      const whose = jobId === undefined ? 'every job' : 'this job only';
      return {
        text: `${times.day(span.fromEpochMs)}: ${times.span(span, 'to')}, ${whose}`,
        utc: `${formatUtc(span.fromEpochMs)} to ${formatUtc(span.toEpochMs)}`,
        hidden: [
          ['fromUtc', fromUtc],
          ['toUtc', toUtc],
          ['job', jobId ?? ''],
        ],
      };
    }),
  };
}

type FormOf = Pick<EntryPage, 'title' | 'action'> & {
  readonly texts: ReadonlyMap<string, string>;
  readonly place: string;
};

function formPage(entered: Entered, fields: readonly EntryField[], { texts, place, title, action }: FormOf): EntryPage {
  const form = { fields, texts, place, title, action, backHref: '/plan', isThere: false };
  const page = entryPage(entered, form);
  return { ...withInstants(page), hidden: [['was', carried(texts)]] };
}

/** Handlings the job names, whatever sail is set. */
const handlingOptions = (
  { passage }: JobDocument,
  { job }: FoundJob,
): readonly { readonly value: string; readonly text: string }[] =>
  passage.boat.handlings
    .filter(({ id }) => job.handlings.includes(id))
    .map(({ id, name }) => ({ value: id, text: name }));

/** Inputs whose time is chosen on the ship's clock. */
const withInstants = (page: EntryPage): EntryPage => ({
  ...page,
  sections: page.sections.map((section) => ({
    ...section,
    groups: section.groups.map((group) => ({
      ...group,
      fields: group.fields.map((field) => (field.name.endsWith('Utc') ? { ...field, kind: 'instant' } : field)),
    })),
  })),
});
