import type { JSX } from 'preact';
import type { WatchPage } from '../../server/presenters/watch-page.ts';
import { StateMain } from '../parts/state.tsx';
import { WatchkeeperPart } from '../parts/watchkeeper.tsx';
import { PlanDocument } from './document.tsx';
import type { Around } from './frame.tsx';

export function WatchDocument({ page, around }: { page: WatchPage; around: Around }): JSX.Element {
  return (
    <PlanDocument page={page} title="Watchkeeper" around={around} current="plan">
      <WatchMain page={page} />
    </PlanDocument>
  );
}

/** The part that changes: all of the page but its head. */
export function WatchMain({ page }: { page: WatchPage }): JSX.Element {
  if (page.kind !== 'watch') return <StateMain page={page} />;
  return (
    <main id="passage" class="plan-page">
      <p class="passage-name with-links">
        <span>{page.name}</span>
        <span>{page.number}</span>
        <a href="/plan">The plan</a>
        <a href="/passage/watchkeeper">Change what is known of the watchkeeper</a>
      </p>
      <WatchkeeperPart watchkeeper={page.watchkeeper} />
    </main>
  );
}
