import type { JSX } from 'preact';
import type { EntryPage } from '../../server/presenters/entry-page.ts';
import { JobField } from './job-field.tsx';
import { ProblemList } from './problems.tsx';
import { SailPicturePart } from './sail-picture.tsx';
import { VersionField } from './version-field.tsx';

/** The form of one entry: its inputs, what is wrong with them, and a button to take it out. */
export function EntryFormMain({ page }: { page: EntryPage }): JSX.Element {
  return (
    <main id="passage" class={`alone job-edit entry-page${page.drawing === null ? '' : ' with-drawing'}`}>
      <form method="post" action={page.action}>
        <div class="save-bar">
          <button class="main-button" name="do" value="save">
            Save
          </button>
          {page.canDraw && (
            <button name="do" value="draw" formaction={`${page.action}#drawing`}>
              Draw it first
            </button>
          )}
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
        <Said page={page} />
        <VersionField version={page.version} />
        {page.hidden.map(([name, value]) => (
          <input key={name} type="hidden" name={name} value={value} />
        ))}
        {page.sections.map(({ title, groups }) => (
          <section key={title}>
            {title !== '' && <h2>{title}</h2>}
            <div class="fields">
              {groups.map((group) => (
                <JobField key={group.id} group={group} />
              ))}
            </div>
          </section>
        ))}
      </form>
      {page.drawing !== null && (
        <div class="entry-drawing" id={page.isDrawn ? 'drawing' : undefined}>
          <SailPicturePart picture={page.drawing} idPrefix="entry-sail" />
        </div>
      )}
    </main>
  );
}

/** What has to be known before the inputs. */
function Said({ page }: { page: EntryPage }): JSX.Element {
  return (
    <>
      {page.note !== '' && (
        <p class="form-note" role="status">
          {page.note}
        </p>
      )}
      {page.removalAsked !== '' && (
        <div class="second-question">
          <p>{page.removalAsked}</p>
          <button name="do" value="remove-all">
            Take all of it out
          </button>
        </div>
      )}
      {page.wrong.length > 0 && (
        <nav class="form-wrong" aria-label="What has to be put right">
          <ul class="plain">
            {page.wrong.map(({ inputId, text }) => (
              <li key={`${inputId} ${text}`}>
                <a href={`#${inputId}`}>{text}</a>
              </li>
            ))}
          </ul>
        </nav>
      )}
      {page.problems.length > 0 && <ProblemList problems={page.problems} />}
    </>
  );
}
