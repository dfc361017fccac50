import type { ComponentChildren, JSX } from 'preact';
import type { FileInput, LibraryTicks, NewPage } from '../../server/presenters/new-page.ts';
import type { GroupView } from '../../server/presenters/job-edit-page.ts';
import { ChainField } from '../parts/chain-field.tsx';
import { JobField } from '../parts/job-field.tsx';
import { ProblemList } from '../parts/problems.tsx';
import { type Around, Frame } from './frame.tsx';

export function NewDocument({ page, around }: { page: NewPage; around: Around }): JSX.Element {
  return (
    <Frame title="A passage of your own – Slatch" around={around} clock={null} current={null}>
      <NewMain page={page} />
    </Frame>
  );
}

/** The form: only the track has to be given. */
export function NewMain({ page }: { page: NewPage }): JSX.Element {
  return (
    <main id="passage" class="alone job-edit entry-page new-page">
      <form method="post" action="/new" enctype="multipart/form-data">
        <h1 class="what">A passage of your own</h1>
        <p class="new-lead">
          Only the track has to be given. Whatever is left empty is a default, and is said to be one; all of it can be
          changed afterwards. The passage shown now stays in the store, under <a href="/document">passages kept</a>.
        </p>
        <Said page={page} />
        <input type="hidden" name="token" value={page.token} />
        <Part title="Track">
          <FileField input={page.gpx} />
          <Fields groups={page.track} />
        </Part>
        <Part title="Forecast and departure">
          <FileField input={page.forecast} />
          <Fields groups={page.hours} />
        </Part>
        <Part title="Jobs">
          <p>Tick what has to be mended. Nothing ticked: jobs can be added later.</p>
          <ChainField ticks={page.chains} />
          {page.library.map((ticks) => (
            <Library key={ticks.title} ticks={ticks} />
          ))}
        </Part>
        <Part title="Boat">
          <Fields groups={page.boat} />
        </Part>
        <Part title="Sleep">
          <Fields groups={page.sleep} />
        </Part>
        <Part title="Name">
          <Fields groups={page.passage} />
        </Part>
        <div class="save-bar">
          <button class="main-button">Make this passage</button>
          <a class="button" href="/">
            Leave without making it
          </a>
        </div>
      </form>
    </main>
  );
}

function Said({ page }: { page: NewPage }): JSX.Element {
  return (
    <>
      {page.note !== '' && (
        <p class="form-note" role="alert" tabIndex={-1} autofocus>
          {page.note}
        </p>
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

const Part = ({ title, children }: { title: string; children: ComponentChildren }): JSX.Element => (
  <section>
    <h2>{title}</h2>
    {children}
  </section>
);

const Fields = ({ groups }: { groups: readonly GroupView[] }): JSX.Element => (
  <div class="fields">
    {groups.map((group) => (
      <JobField key={group.id} group={group} />
    ))}
  </div>
);

function FileField({ input }: { input: FileInput }): JSX.Element {
  const saidId = `${input.id}-said`;
  return (
    <div class={`field${input.problems.length > 0 ? ' wrong' : ''}`}>
      <label for={input.id}>{input.label}</label>
      <input
        id={input.id}
        type="file"
        name={input.name}
        multiple={input.isSeveral}
        accept={input.accept === '' ? undefined : input.accept}
        aria-describedby={saidId}
        aria-invalid={input.problems.length > 0 ? 'true' : undefined}
      />
      <div id={saidId} class="said-of-field">
        {input.problems.map(({ code, where, what, expected, remedy }) => (
          <p key={`${code} ${where}`} class="field-problem">
            <b>
              {where}: {what}
            </b>{' '}
            Expected: {expected}. {remedy}
          </p>
        ))}
        <p>{input.hint}</p>
      </div>
    </div>
  );
}

const Library = ({ ticks }: { ticks: LibraryTicks }): JSX.Element => (
  <details class="library-group" open={ticks.tickedCount > 0}>
    <summary>
      {ticks.title}{' '}
      <small>
        {ticks.tickedCount > 0 ? `${ticks.tickedCount} ticked` : `${ticks.group.fields[0]?.options.length} jobs`}
      </small>
    </summary>
    <JobField group={ticks.group} />
  </details>
);
