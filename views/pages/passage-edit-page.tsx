import type { JSX } from 'preact';
import type { PassageEditPages } from '../../server/presenters/passage-edit-pages.ts';
import { BoatMain, SpeedsMain } from '../parts/boat-edit.tsx';
import { EntryFormMain } from '../parts/entry-form.tsx';
import { TrackMain } from '../parts/track-edit.tsx';
import { PlanDocument } from './document.tsx';
import type { Around } from './frame.tsx';

export function PassageEditDocument({ page, around }: { page: PassageEditPages; around: Around }): JSX.Element {
  return (
    <PlanDocument page={page} title={titleOf(page)} around={around} current="passage">
      <PassageEditMain page={page} />
    </PlanDocument>
  );
}

function titleOf(page: PassageEditPages): string {
  if (page.kind === 'track') return 'Track';
  return page.kind === 'boat' ? 'Boat' : page.title;
}

/** The part that changes: all of the page but its head. */
export function PassageEditMain({ page }: { page: PassageEditPages }): JSX.Element {
  if (page.kind === 'track') return <TrackMain page={page} />;
  if (page.kind === 'boat') return <BoatMain page={page} />;
  return page.kind === 'speeds' ? <SpeedsMain page={page} /> : <EntryFormMain page={page} />;
}
