import type { Request } from 'express';
import { didYouMean } from '../../lib/result/index.ts';
import type { Deps } from '../deps.ts';
import type { PassageDocument } from '../documents/index.ts';
import { findJob, type FoundJob } from '../job-forms/index.ts';
import { PageError } from './page-error.ts';

/** Id of the job in the address. */
export function idOf(request: Request): string {
  const { id } = request.params;
  return typeof id === 'string' ? id : '';
}

export interface AskedJob {
  readonly document: PassageDocument;
  readonly found: FoundJob;
}

/** The passage and the job of the address; a page that says what there is where there is no such job. */
export async function askedJob(deps: Deps, request: Request): Promise<AskedJob> {
  const document = await documentOf(deps);
  const id = idOf(request);
  const found = findJob(document.file, document.passage, id);
  if (found !== null) return { document, found };
  const ids = document.passage.jobs.map((job) => job.id);
  const near = didYouMean(id, ids);
  throw new PageError(
    404,
    'No such job',
    `This passage has no job “${id}”. Expected: ${ids.length === 0 ? 'a job that was added first' : `one of ${ids.join(', ')}`}. ${near === null ? 'Choose it on the page Jobs.' : `Did you mean “${near}”?`}`,
  );
}

/** The passage; without one nothing of it can be changed. */
export async function documentOf(deps: Deps): Promise<PassageDocument> {
  const document = await deps.passageDocument();
  if (document.ok) return document.value;
  const sentences = document.problems.map(({ what, remedy }) => `${what} ${remedy}`);
  throw new PageError(409, 'No passage', sentences.join(' '));
}
