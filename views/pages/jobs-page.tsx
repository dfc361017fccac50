import type { JSX } from 'preact';
import type { JobsPages } from '../../server/presenters/jobs-pages.ts';
import { JobEditMain } from '../parts/job-edit.tsx';
import { JobHoursMain } from '../parts/job-hours.tsx';
import { JobMain } from '../parts/job-whole.tsx';
import { JobListMain } from '../parts/job-list.tsx';
import { ProblemList } from '../parts/problems.tsx';
import { PlanDocument } from './document.tsx';
import type { Around } from './frame.tsx';

export function JobsDocument({ page, around }: { page: JobsPages; around: Around }): JSX.Element {
  return (
    <PlanDocument page={page} title={titleOf(page)} around={around} current="jobs">
      <JobsMain page={page} />
    </PlanDocument>
  );
}

function titleOf(page: JobsPages): string {
  if (page.kind === 'job') return page.title;
  if (page.kind === 'job-hours') return `Hours: ${page.title}`;
  return page.kind === 'job-edit' ? `Edit: ${page.title}` : 'Jobs';
}

/** The part that changes: all of the page but its head. */
export function JobsMain({ page }: { page: JobsPages }): JSX.Element {
  if (page.kind === 'jobs') return <JobListMain page={page} />;
  if (page.kind === 'job') return <JobMain page={page} />;
  if (page.kind === 'job-edit') return <JobEditMain page={page} />;
  if (page.kind === 'job-hours') return <JobHoursMain page={page} />;
  return (
    <main id="passage" class="alone">
      <section class="state" aria-labelledby="state-title">
        <h1 class="what" id="state-title">
          No passage, no jobs
        </h1>
        <ProblemList problems={page.problems} />
      </section>
    </main>
  );
}
