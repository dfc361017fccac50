import type { JSX } from 'preact';
import type { LockerPages } from '../../server/presenters/locker-page.ts';
import { EntryFormMain } from '../parts/entry-form.tsx';
import { LockerMainPart } from '../parts/locker-list.tsx';
import { LockerSawnMain } from '../parts/locker-sawn.tsx';
import { LockerCutMain } from '../parts/locker-sheet.tsx';
import { ProblemList } from '../parts/problems.tsx';
import { PlanDocument } from './document.tsx';
import type { Around } from './frame.tsx';

export function LockerDocument({ page, around }: { page: LockerPages; around: Around }): JSX.Element {
  return (
    <PlanDocument page={page} title={titleOf(page)} around={around} current="locker">
      <LockerMain page={page} />
    </PlanDocument>
  );
}

function titleOf(page: LockerPages): string {
  if (page.kind === 'entry') return page.title;
  if (page.kind === 'locker-cut') return 'Cut sheet';
  return page.kind === 'locker-sawn' ? 'Once it is sawn' : 'Locker';
}

/** The part that changes: all of the page but its head. */
export function LockerMain({ page }: { page: LockerPages }): JSX.Element {
  if (page.kind === 'locker') return <LockerMainPart page={page} />;
  if (page.kind === 'locker-cut') return <LockerCutMain page={page} />;
  if (page.kind === 'locker-sawn') return <LockerSawnMain page={page} />;
  if (page.kind === 'entry') return <EntryFormMain page={page} />;
  return (
    <main id="passage" class="alone">
      <section class="state" aria-labelledby="state-title">
        <h1 class="what" id="state-title">
          No passage, no locker
        </h1>
        <ProblemList problems={page.problems} />
      </section>
    </main>
  );
}
