import type { JSX } from 'preact';
import type { EntryPage } from '../../server/presenters/damage-page.ts';
import { JobField } from './job-field.tsx';
import { ProblemList } from './problems.tsx';
import { VersionField } from './version-field.tsx';

/** The form of one entry: its inputs, what is wrong with them, and a button to take it out. */
export function EntryFormMain({ page }: { page: EntryPage }): JSX.Element {
  return (
    <main id="passage" class="alone job-edit entry-page">
      <form method="post" action={page.action}>
        <div class="save-bar">
          <button class="main-button" name="do" value="save">
            Save
          </button>
          <a class="button" href={page.backHref}>
            Leave without saving
          </a>
          {page.isThere && (
            <button name="do" value="remove">
              Take it out
            </button>
          )}
        </div>
        <h1 class="what">{page.title}</h1>
        {page.problems.length > 0 && <ProblemList problems={page.problems} />}
        <VersionField version={page.version} />
        <div class="fields">
          {page.groups.map((group) => (
            <JobField key={group.id} group={group} />
          ))}
        </div>
      </form>
    </main>
  );
}
