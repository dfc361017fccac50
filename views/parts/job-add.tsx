import type { JSX } from 'preact';
import type { ChainView, JobsPage, LibraryGroup } from '../../server/presenters/jobs-page.ts';
import { VersionField } from './version-field.tsx';

/** Three ways to add jobs: from the library, as a chain that shares one occasion, or as one's own. */
export function JobAdd({ page }: { page: JobsPage }): JSX.Element {
  return (
    <section class="job-add" aria-labelledby="job-add-title">
      <h2 id="job-add-title">Add a job</h2>
      <p>
        <a class="button" href="/new-job">
          A job of your own
        </a>
      </p>
      <details>
        <summary>From the library</summary>
        <p class="subtitle">
          Minutes are those of half of all tries, in brackets of 90 in 100. A job starts as a copy; change in it what
          you know better.
        </p>
        <form method="post" action="/jobs">
          <VersionField version={page.version} />
          <input type="hidden" name="kind" value="library" />
          {page.library.map((group) => (
            <Library key={group.title} group={group} />
          ))}
        </form>
      </details>
      <details>
        <summary>A chain of jobs that belong together</summary>
        {page.chains.map((chain) => (
          <Chain key={chain.id} chain={chain} version={page.version} />
        ))}
      </details>
    </section>
  );
}

function Library({ group }: { group: LibraryGroup }): JSX.Element {
  return (
    <details class="library-group">
      <summary>
        {group.title} <small>{group.jobs.length} jobs</small>
      </summary>
      <ul>
        {group.jobs.map(({ id, name, line, isThere }) => (
          <li key={id}>
            <p>
              {name}
              <small>
                {line}
                {isThere ? '; in the passage already' : ''}
              </small>
            </p>
            <button name="job" value={id} aria-label={`Add: ${name}`}>
              Add
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}

function Chain({ chain, version }: { chain: ChainView; version: string }): JSX.Element {
  const title = `chain-${chain.id}`;
  return (
    <form class="chain" method="post" action="/jobs" aria-labelledby={title}>
      <VersionField version={version} />
      <input type="hidden" name="kind" value="chain" />
      <input type="hidden" name="chain" value={chain.id} />
      <h3 id={title}>{chain.name}</h3>
      <p>{chain.what}</p>
      <ul>
        {chain.links.map(({ id, name, why, isCore }) => (
          <li key={id}>
            {isCore ? (
              <p class="core">
                {name} <small>always there. {why}</small>
              </p>
            ) : (
              <label class="tick">
                <input type="checkbox" name="link" value={id} checked />
                <span>
                  {name} <small>{why}</small>
                </span>
              </label>
            )}
          </li>
        ))}
      </ul>
      <button>Add this chain</button>
    </form>
  );
}
