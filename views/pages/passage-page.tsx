import type { JSX } from 'preact';
import type { PassagePage } from '../../server/presenters/passage-page.ts';
import { ChangesPart } from '../parts/changes.tsx';
import { JobsTable } from '../parts/jobs-table.tsx';
import { NextCardPart } from '../parts/next-card.tsx';
import { PassageLinks } from '../parts/passage-links.tsx';
import { PlanNotesPart } from '../parts/plan-notes.tsx';
import { NotRenewed } from '../parts/problems.tsx';
import { SeaMapPart } from '../parts/sea-map.tsx';
import { StateMain } from '../parts/state.tsx';
import { StripPart } from '../parts/strip.tsx';
import { PlanDocument } from './document.tsx';
import type { Around } from './frame.tsx';

export function PassageDocument({ page, around }: { page: PassagePage; around: Around }): JSX.Element {
  return (
    <PlanDocument page={page} title="" around={around} current="passage">
      <PassageMain page={page} />
    </PlanDocument>
  );
}

/** The part that changes: all of the page but its head. */
export function PassageMain({ page }: { page: PassagePage }): JSX.Element {
  if (page.kind !== 'planned') return <StateMain page={page} />;
  return (
    <main id="passage">
      <p class="passage-name with-links">
        <span class="name">{page.name}</span> <a href="/plans">{page.number}</a>{' '}
        {page.changes !== null && <a href="#changes">{page.changes.count}</a>}{' '}
        <a class="screen-hint" href="/new">
          A passage of your own
        </a>
      </p>
      <NotRenewed problems={page.notRenewed} />
      {page.card === null ? <NoJobs /> : <NextCardPart card={page.card} />}
      <StripPart strip={page.strip} />
      <JobsTable rows={page.rows} />
      {page.changes !== null && <ChangesPart changes={page.changes} />}
      {page.map !== null && <SeaMapPart map={page.map} />}
      <PassageLinks />
      <PlanNotesPart notes={page.notes} />
    </main>
  );
}

function NoJobs(): JSX.Element {
  return (
    <section class="next" aria-labelledby="next-what">
      <p class="label">Next</p>
      <h1 class="what" id="next-what">
        Nothing to mend
      </h1>
      <p>This passage has no jobs, so there is nothing to fit into its hours.</p>
    </section>
  );
}
