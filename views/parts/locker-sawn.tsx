import type { JSX } from 'preact';
import type { SawnPage } from '../../server/presenters/locker-page.ts';
import { ChangeList } from './locker-table.tsx';
import { VersionField } from './version-field.tsx';

/** What changes once the cut sheet is sawn, and the button that saves it. */
export function LockerSawnMain({ page: { sawn, version } }: { page: SawnPage }): JSX.Element {
  const { changes, made, stillWanted } = sawn;
  if (changes.length === 0)
    return (
      <main id="passage" class="alone locker-sawn">
        <h1 class="what">Nothing to saw</h1>
        <p>No wanted piece can be made of the bars in the locker; the cut sheet says what bar would do.</p>
        <p class="locker-buttons">
          <a class="button" href="/locker#cutting">
            Back to the locker
          </a>
        </p>
      </main>
    );
  return (
    <main id="passage" class="alone locker-sawn">
      <h1 class="what">Once it is sawn</h1>
      <p>
        If you sawed as the sheet says, the locker changes so. Measure the left-overs: where one is shorter, change its
        line afterwards.
      </p>
      <ChangeList changes={changes} />
      <p>
        No longer wanted: {made.join(', ')}.{stillWanted.length > 0 && ` Still wanted: ${stillWanted.join(', ')}.`} The
        pieces themselves do not go into the locker.
      </p>
      <form method="post" action="/locker/sawn" class="locker-buttons">
        <VersionField version={version} />
        <button class="main-button">It is sawn: take the left-overs in</button>
        <a class="button" href="/locker#cutting">
          Not yet
        </a>
      </form>
    </main>
  );
}
