import type { JSX } from 'preact';
import type { LogPage, LogPages, LogPicksPage } from '../../server/presenters/log-page.ts';
import { EntryFormMain } from '../parts/entry-form.tsx';
import { LogEntries } from '../parts/log-entries.tsx';
import { LogJobsPart, LogJobList } from '../parts/log-jobs.tsx';
import { LogToldPart } from '../parts/log-told.tsx';
import { PlanDocument } from './document.tsx';
import type { Around } from './frame.tsx';

export function LogDocument({ page, around }: { page: LogPages; around: Around }): JSX.Element {
  return (
    <PlanDocument page={page} title={titleOf(page)} around={around} current="log">
      <LogMain page={page} />
    </PlanDocument>
  );
}

function titleOf(page: LogPages): string {
  if (page.kind === 'entry') return page.title;
  return page.kind === 'log' ? 'Log' : 'A job';
}

/** The part that changes: all of the page but its head. */
export function LogMain({ page }: { page: LogPages }): JSX.Element {
  if (page.kind === 'entry') return <EntryFormMain page={page} />;
  return page.kind === 'log' ? <LogMainPart page={page} /> : <PicksMain page={page} />;
}

function LogMainPart({ page }: { page: LogPage }): JSX.Element {
  return (
    <main id="passage" class="log-page">
      <section class="log-now" aria-labelledby="log-title">
        <h1 class="what" id="log-title">
          What happened?
        </h1>
        <p class="log-kinds">
          <a class="button" href="/log/new/observation">
            Weather, place, sails
          </a>
          <a class="button" href="/log/new/sleep">
            A sleep
          </a>
          <a class="button" href="/log/new/job">
            A job
          </a>
          <a class="button" href="/log/new/note">
            A note
          </a>
        </p>
        {page.slept !== '' && <p class="log-slept">{page.slept}</p>}
      </section>
      <LogJobsPart jobs={page.jobs} version={page.version} formToken={page.formToken} />
      {page.inPlan !== null && <LogToldPart told={page.inPlan} />}
      <LogEntries page={page} />
    </main>
  );
}

function PicksMain({ page }: { page: LogPicksPage }): JSX.Element {
  const { jobs } = page;
  return (
    <main id="passage" class="alone log-page">
      <h1 class="what">Which job?</h1>
      <LogJobList jobs={[...jobs.near, ...jobs.others]} version={page.version} formToken={page.formToken} />
      {jobs.near.length + jobs.others.length === 0 && <p>No job of this passage is open.</p>}
      <p class="once">
        <a class="button" href="/log">
          Leave without writing
        </a>
      </p>
    </main>
  );
}
