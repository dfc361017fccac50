import type { JSX } from 'preact';
import type { FetchField } from '../../server/presenters/fetch-fields.ts';
import type { FetchForm, FetchView } from '../../server/presenters/forecast-fetch.ts';
import type { HeldView } from '../../server/presenters/forecast-held.ts';
import type { Problem } from '../../lib/result/index.ts';
import type { FileRow, ForecastPage } from '../../server/presenters/forecast-page.ts';
import { Coverage } from '../parts/coverage.tsx';
import { ProblemList } from '../parts/problems.tsx';
import { VersionField } from '../parts/version-field.tsx';
import { PlanDocument } from './document.tsx';
import type { Around } from './frame.tsx';

/** Seconds after which a browser without script looks again while a forecast is being fetched. */
const ASK_AGAIN_S = 5;

export function ForecastDocument({ page, around }: { page: ForecastPage; around: Around }): JSX.Element {
  const refresh = page.fetch?.isGoingOn === true ? { refreshS: ASK_AGAIN_S } : {};
  return (
    <PlanDocument page={page} title="Forecast" around={around} current="forecast" {...refresh}>
      <ForecastMain page={page} />
    </PlanDocument>
  );
}

/** The part that changes: all of the page but its head. */
export function ForecastMain({ page }: { page: ForecastPage }): JSX.Element {
  return (
    <main id="passage" class="forecast-page">
      {page.problems.length > 0 && <ProblemList problems={page.problems} />}
      {page.held === null ? <NotHeld /> : <Held held={page.held} />}
      <Credits files={page.files} />
      <Files files={page.files} version={page.version} />
      <Upload problems={page.uploadProblems} />
      {page.fetch !== null && <Fetching page={page} fetch={page.fetch} />}
      <FetchPart form={page.form} isBusy={page.fetch?.isGoingOn === true} />
    </main>
  );
}

const NotHeld = (): JSX.Element => (
  <section aria-labelledby="held-title">
    <h1 class="what" id="held-title">
      No plan has read the forecast yet
    </h1>
    <p>What it holds is shown here as soon as a plan is made of it.</p>
  </section>
);

function Held({ held }: { held: HeldView }): JSX.Element {
  return (
    <section aria-labelledby="held-title">
      <h1 class="what" id="held-title">
        {held.title}
      </h1>
      {held.lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
      {held.uncovered.length > 0 && (
        <div class="forecast-gaps">
          <h2>Where it is silent</h2>
          <ProblemList problems={held.uncovered} />
        </div>
      )}
      <Coverage coverage={held.coverage} />
      <h2>Against what was seen</h2>
      {held.seen.length === 0 ? (
        <p>
          Nothing of the weather is in the log yet. <a href="/log">Write down</a> wind and barometer: the forecast is
          then held against them.
        </p>
      ) : (
        held.seen.map((line) => <p key={line}>{line}</p>)
      )}
      <h2>What it holds</h2>
      <table class="forecast-table">
        <thead>
          <tr>
            <th scope="col">Quantity</th>
            <th scope="col">From and to, ship's time</th>
            <th scope="col">Every</th>
            <th scope="col">Runs</th>
            <th scope="col">Area and grid</th>
            <th scope="col">Known where she will be</th>
          </tr>
        </thead>
        <tbody>
          {held.rows.map((row) => (
            <tr key={row.name}>
              <th scope="row">{row.name}</th>
              <td data-head="From and to">{row.span}</td>
              <td data-head="Every">{row.step}</td>
              <td data-head="Runs">{row.members}</td>
              <td data-head="Area and grid">{row.area}</td>
              <td data-head="Known where she will be">{row.along}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {held.missing !== '' && <p class="forecast-missing">{held.missing}</p>}
      {held.notes.length > 0 && (
        <details>
          <summary>How the files were put together ({held.notes.length})</summary>
          <ul class="plain">
            {held.notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </details>
      )}
      {held.problems.length > 0 && (
        <details>
          <summary>Parts of the files that cannot be used ({held.problems.length})</summary>
          <ProblemList problems={held.problems} />
        </details>
      )}
    </section>
  );
}

/** Whose the forecast is, beside what was made of it: on paper too, where the list of files is not. */
const Credits = ({ files }: { files: readonly FileRow[] }): JSX.Element | null => {
  const named = files.filter(({ isUsed, credit }) => isUsed && credit !== '');
  if (named.length === 0) return null;
  return <p class="forecast-attribution">{[...new Set(named.map(({ credit }) => credit))].join(' ')}</p>;
};

function Files({ files, version }: { files: readonly FileRow[]; version: string }): JSX.Element {
  const removable = files.filter(({ removeHash }) => removeHash !== null);
  return (
    <section aria-labelledby="files-title" id="files">
      <h2 id="files-title">Files</h2>
      <form method="post" action="/forecast/files">
        <VersionField version={version} />
        <fieldset class="forecast-files">
          <legend>Plan with</legend>
          {files.map((file) => (
            <label key={file.reference} class="tick">
              <input type="checkbox" name="use" value={file.reference} checked={file.isUsed} />
              <span>
                {file.name} <small>{[file.size, file.came].filter((text) => text !== '').join(', ')}</small>
                {[...file.holds, ...(file.isUsed || file.credit === '' ? [] : [file.credit])].map((line) => (
                  <small key={line} class="forecast-line">
                    {line}
                  </small>
                ))}
              </span>
            </label>
          ))}
        </fieldset>
        <button>Plan with what is ticked</button>
      </form>
      {removable.map(({ removeHash, name }) => (
        <form key={removeHash} method="post" action="/forecast/remove" class="forecast-remove">
          <input type="hidden" name="hash" value={removeHash ?? ''} />
          <button>Remove {name} from the store</button>
        </form>
      ))}
    </section>
  );
}

/** Files from the reader's own disk. */
const Upload = ({ problems }: { problems: readonly Problem[] }): JSX.Element => (
  <form method="post" action="/forecast/upload#upload" enctype="multipart/form-data" id="upload">
    <h2>Add files</h2>
    {problems.length > 0 && (
      <div id="upload-wrong">
        <ProblemList problems={problems} />
      </div>
    )}
    <label for="upload-forecast">GRIB files, or the text of a digest</label>
    <input
      id="upload-forecast"
      type="file"
      name="forecast"
      multiple
      aria-invalid={problems.length > 0 ? 'true' : undefined}
      aria-describedby={problems.length > 0 ? 'upload-wrong' : undefined}
    />
    <p>
      <button>Add them to the list above</button>
    </p>
  </form>
);

/** A fetch that goes on or has ended; it asks for itself again while it goes on. */
export function Fetching({ page, fetch }: { page: ForecastPage; fetch: FetchView }): JSX.Element {
  const reference = fetch.use?.reference ?? null;
  const isUsed = page.files.some((file) => file.reference === reference && file.isUsed);
  return (
    <section id="fetch" class="forecast-fetching" aria-labelledby="fetch-title">
      <h2 id="fetch-title">{fetch.title}</h2>
      {fetch.isGoingOn && (
        <div hx-get="/forecast/fetch" hx-trigger="load delay:1s" hx-target="#fetch" hx-swap="outerHTML" />
      )}
      <div role="status">
        {fetch.lines.map((line) => (
          <p key={line}>{line}</p>
        ))}
      </div>
      {fetch.share !== null && <progress value={fetch.share.toFixed(3)} max="1" aria-label="Share that has come" />}
      {fetch.problems.length > 0 && <ProblemList problems={fetch.problems} />}
      {fetch.attribution !== '' && <p class="forecast-attribution">{fetch.attribution}</p>}
      {fetch.isGoingOn && (
        <form method="post" action="/forecast/fetch/stop">
          <button>Stop; what has come stays for the next try</button>
        </form>
      )}
      {reference !== null && !isUsed && (
        <form method="post" action="/forecast/files">
          <VersionField version={page.version} />
          <input type="hidden" name="use" value={reference} />
          <button class="main-button">Plan with this alone</button>
        </form>
      )}
    </section>
  );
}

function FetchPart({ form, isBusy }: { form: FetchForm; isBusy: boolean }): JSX.Element {
  const { asked, sources } = form;
  return (
    <section aria-labelledby="get-title" id="get">
      <h2 id="get-title">Get a forecast</h2>
      {form.problems.length > 0 && <ProblemList problems={form.problems} />}
      {form.estimate.map((line) => (
        <p key={line} role="status">
          {line}
        </p>
      ))}
      <form method="post" action="/forecast/fetch#get" class="forecast-form">
        <label>
          <span>Source</span>
          <select name="source">
            {sources.map(({ id, text }) => (
              <option key={id} value={id} selected={id === asked.sourceId}>
                {text}
              </option>
            ))}
            <option value="address" selected={asked.sourceId === ''}>
              An address of my own, below
            </option>
          </select>
        </label>
        {form.fields.map((field) => (
          <Field key={field.name} field={field} />
        ))}
        <p class="forecast-buttons">
          <button name="do" value="estimate">
            How much is it?
          </button>
          <button name="do" value="fetch" disabled={isBusy}>
            Get it
          </button>
        </p>
      </form>
      <details>
        <summary>Terms of the sources</summary>
        <dl class="forecast-terms">
          {sources.map(({ id, text, about }) => (
            <div key={id}>
              <dt>{text}</dt>
              <dd>{about}</dd>
            </div>
          ))}
        </dl>
      </details>
    </section>
  );
}

const Field = ({ field: { name, label, value, hint, wrong } }: { field: FetchField }): JSX.Element => (
  <label>
    <span>{label}</span>
    <input
      name={name}
      value={value}
      aria-describedby={`get-${name}`}
      aria-invalid={wrong === '' ? undefined : 'true'}
      autocomplete="off"
      spellcheck={false}
    />
    <small id={`get-${name}`}>
      {wrong !== '' && <b class="field-problem">{wrong} </b>}
      {hint}
    </small>
  </label>
);
