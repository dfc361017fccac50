import type { Problem } from '../../lib/result/index.ts';
import type { HoursPage } from './hours-page.ts';
import type { JobEditPage } from './job-edit-page.ts';
import type { JobPage } from './job-page.ts';
import type { JobsPage } from './jobs-page.ts';

/** Any page of jobs. */
export type JobsPages = JobsPage | JobPage | JobEditPage | HoursPage | NoDocumentPage;

/** There is no passage to show jobs of. */
export interface NoDocumentPage {
  readonly kind: 'failed';
  readonly problems: readonly Problem[];
}
