import type { JSX } from 'preact';
import type { LogPage } from '../../server/presenters/log-page.ts';
import type { LogRowView } from '../../server/presenters/log-rows.ts';
import { VersionField } from './version-field.tsx';

/** Every entry, the newest first, with what became of it. */
export function LogEntries({ page }: { page: LogPage }): JSX.Element {
  return (
    <section class="log-entries" id="entries" aria-labelledby="log-entries-title">
      <h2 id="log-entries-title">
        What was written <small>{countText(page.entryCount)}</small>
      </h2>
      {page.rows.length === 0 ? (
        <p>Nothing yet. What is written here moves the plan: place, weather, sails, sleep, jobs.</p>
      ) : (
        <ol>
          {page.rows.map((row) => (
            <Row key={row.number} row={row} />
          ))}
        </ol>
      )}
      <p class="log-pages">
        {page.newerHref !== null && <a href={page.newerHref}>Newer entries</a>}
        {page.olderHref !== null && <a href={page.olderHref}>Older entries</a>}
      </p>
      {page.entryCount > 0 && (
        <p class="log-files">
          Save it as <a href="/log.jsonl">JSON Lines</a> or <a href="/log.csv">CSV</a>. Nothing in it is ever changed or
          removed: a correction is an entry of its own.
        </p>
      )}
    </section>
  );
}

const countText = (count: number): string => (count === 1 ? '1 entry' : `${count} entries`);

function Row({ row }: { row: LogRowView }): JSX.Element {
  return (
    <li id={`e${row.number}`} class={row.isWithdrawn ? 'log-row withdrawn' : 'log-row'}>
      <p class="log-when">
        <b>{row.when}</b> <small>{row.utc}</small>
      </p>
      <div class="log-what">
        <p>
          {row.isWithdrawn ? <s>{row.words}</s> : row.words}{' '}
          <small>
            entry {row.number}
            {row.written !== '' && `, ${row.written}`}
          </small>
        </p>
        {row.corrections.map((text) => (
          <p key={text} class="log-correction">
            {text}
          </p>
        ))}
      </div>
      <div class="log-acts">
        <a class="button" href={`/log/${row.number}`} aria-label={`Correct entry ${row.number}`}>
          Correct
        </a>
        {!row.isWithdrawn && (
          <form method="post" action={`/log/${row.number}/withdraw`}>
            <VersionField version={row.version} />
            <button aria-label={`Withdraw entry ${row.number}`}>Withdraw</button>
          </form>
        )}
      </div>
    </li>
  );
}
