import type { Job } from '../../lib/jobs/index.ts';
import type { StatementFile } from '../../lib/log/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import { ENTRY, logFields, type LogKind, type LogSurroundings, statementTexts } from '../log-forms/index.ts';
import { entryPage, type EntryPage } from './entry-page.ts';
import type { JobDocument } from './job-document.ts';

type Texts = ReadonlyMap<string, string>;

/** The form that is asked for. */
export interface AskedLogForm {
  readonly kind: LogKind;
  /** What it begins with, by the name of the input. */
  readonly prefilled: Texts;
  /** What it corrects; null: a new entry. */
  readonly corrected: CorrectedEntry | null;
}

export interface CorrectedEntry {
  /** Number of the entry as it was first written. */
  readonly number: number;
  /** Number of the correction that holds; 0: none. */
  readonly seenNumber: number;
  /** What holds now; null: it was withdrawn. */
  readonly statement: StatementFile | null;
  /** What it says, or said before it was withdrawn. */
  readonly shown: StatementFile;
}

export interface LogFormEntered {
  readonly document: JobDocument;
  readonly around: LogSurroundings;
  readonly nowEpochMs: number;
  readonly formToken: string;
  readonly refused: {
    readonly texts: Texts;
    readonly problems: readonly Problem[];
    /** What the form showed, where the entry was corrected meanwhile. */
    readonly was: Texts | null;
  } | null;
}

/** Form of an entry of the log: a new one, or one that is corrected. */
export function logEntryPage(asked: AskedLogForm, entered: LogFormEntered): EntryPage {
  const { corrected, kind } = asked;
  const { around, document } = entered;
  const page = entryPage(
    {
      // The log is kept by the passage; its entries have corrections where the passage has versions.
      document: { ...document, version: corrected?.seenNumber ?? 0 },
      nowEpochMs: entered.nowEpochMs,
      refused: entered.refused,
    },
    {
      fields: logFields(kind, around),
      texts: corrected === null ? newTexts(asked, around) : statementTexts(corrected.shown, around),
      place: ENTRY,
      title: titleOf(asked, around.job),
      action: corrected === null ? newHref(kind, around.job) : `/log/${corrected.number}`,
      backHref: '/log',
      isThere: false,
      hidden: [['token', entered.formToken]],
      note: corrected !== null && corrected.statement === null ? WITHDRAWN : '',
    },
  );
  return withInstants(page);
}

const WITHDRAWN = 'This entry is withdrawn. Saved, it holds again as it stands here.';

/** Address of the form of a new entry. */
export const newHref = (kind: LogKind, job: Pick<Job, 'id'> | null = null): string =>
  job === null ? `/log/new/${kind}` : `/log/new/${kind}?job=${encodeURIComponent(job.id)}`;

const newTexts = ({ kind, prefilled }: AskedLogForm, around: LogSurroundings): Texts =>
  new Map([
    ...logFields(kind, around).map(({ name }): [string, string] => [name, '']),
    ['clock', 'ship'],
    ...prefilled,
  ]);

const TITLES: Readonly<Record<LogKind, string>> = {
  observation: 'What was seen',
  sleep: 'A sleep',
  job: 'A job',
  note: 'A note',
};

function titleOf({ kind, corrected }: AskedLogForm, job: Job | null): string {
  const words = kind === 'job' && job !== null ? job.name : TITLES[kind];
  return corrected === null ? words : `Entry ${corrected.number}: ${words.charAt(0).toLowerCase()}${words.slice(1)}`;
}

/** Inputs whose time is chosen on a clock. */
const withInstants = (page: EntryPage): EntryPage => ({
  ...page,
  sections: page.sections.map((section) => ({
    ...section,
    groups: section.groups.map((group) => ({
      ...group,
      fields: group.fields.map((field) =>
        field.name === 'atUtc' || field.name === 'endUtc' ? { ...field, kind: 'instant' } : field,
      ),
    })),
  })),
});
