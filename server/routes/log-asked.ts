import type { Request } from 'express';
import type { Job } from '../../lib/jobs/index.ts';
import { type LogRow, logRows } from '../../lib/log/index.ts';
import type { Deps } from '../deps.ts';
import type { PassageDocument } from '../documents/index.ts';
import type { WrittenEntry } from '../keep-log.ts';
import type { LogSurroundings } from '../log-forms/index.ts';
import type { CorrectedEntry } from '../presenters/log-entry-page.ts';
import { statementShown, statementThatHolds } from '../presenters/log-holds.ts';
import type { LogShown } from '../presenters/log-page.ts';
import { shownDocument } from './entry.ts';
import { PageError } from './page-error.ts';

/** The passage that is shown, with its log. */
export interface LogDocument {
  readonly document: PassageDocument;
  readonly entries: readonly WrittenEntry[];
  readonly rows: readonly LogRow[];
  /** Of the clock, or where the passage holds it. */
  readonly nowEpochMs: number;
  readonly aroundOf: (job: Job | null) => LogSurroundings;
}

/** Where there is no passage, or its log cannot be read, a page that says why. */
export async function logDocument(deps: Deps): Promise<LogDocument> {
  const document = await shownDocument(deps);
  const log = deps.passageLog();
  if (!log.ok)
    throw new PageError(500, 'No log', log.problems.map(({ what, remedy }) => `${what} ${remedy}`).join(' '));
  const { passage } = document;
  const { entries } = log.value;
  const nowEpochMs = passage.fixedNowEpochMs ?? deps.nowEpochMs();
  return {
    document,
    entries,
    rows: logRows(entries),
    nowEpochMs,
    aroundOf: (job) => ({
      sailStates: passage.boat.sailStates,
      job,
      shipTimeOffsetMin: passage.settings.shipTimeOffsetMin,
      nowEpochMs,
    }),
  };
}

/** The log as its page shows it. */
export const shownLog = (deps: Deps, { document, entries, rows, nowEpochMs }: LogDocument): LogShown => ({
  document,
  entries,
  rows,
  nowEpochMs,
  standing: deps.planStanding(),
  formToken: deps.formToken(),
});

/** The job of an address; null: it names none. */
export function jobAsked({ query }: Request, { document }: LogDocument): Job | null {
  const { job: id } = query;
  if (typeof id !== 'string' || id === '') return null;
  const job = document.passage.jobs.find((one) => one.id === id);
  if (job !== undefined) return job;
  throw new PageError(404, 'No such job', `There is no job "${id}" in the passage. Choose one of the list.`);
}

/** The entry of an address, which may be corrected. */
export function entryAsked({ params }: Request, { rows }: LogDocument): CorrectedEntry {
  const text = params['number'];
  const number = typeof text === 'string' && /^\d{1,9}$/.test(text) ? Number(text) : -1;
  const row = rows.find((one) => one.number === number);
  if (row === undefined) throw new PageError(404, 'No such entry', 'This entry is not in the log. Look at the list.');
  const { entry, correctedBy } = row;
  if (entry.kind === 'correction')
    throw new PageError(
      404,
      'A correction',
      `Entry ${number} is a correction. What it corrects is entry ${entry.corrects}: correct that one again.`,
    );
  return {
    number,
    seenNumber: correctedBy?.number ?? 0,
    statement: statementThatHolds(row),
    shown: statementShown(row, rows),
  };
}
