import type { JSX } from 'preact';
import type { TableView } from '../../server/presenters/locker-page.ts';
import type { ChangeView } from '../../server/presenters/locker-words.ts';
import { ProblemList } from './problems.tsx';
import { VersionField } from './version-field.tsx';

/** A table put in the place of the list: first what it changes, then saved. */
export function LockerTable({ table, version }: { table: TableView; version: string }): JSX.Element {
  const { text, changes, problems } = table;
  const isWrong = problems.length > 0;
  return (
    <details class="locker-csv" open={text !== '' || isWrong} id="table">
      <summary>Read a table in the place of this list</summary>
      <form method="post" action="/locker/table#table">
        <VersionField version={version} />
        <label for="table-text">The whole table, as it was saved or as a spreadsheet copies it</label>
        <p class="subtitle" id="table-said">
          A header, then a line for each item: item, amount and unit; and if you like kind (material, tool or bar),
          keep, place, length_mm, diameter_mm, ready_utc. Parted by commas or semicolons, at most {table.mostLineCount}{' '}
          lines. Lines that are not in it go out of the locker. Nothing is saved before you have seen what changes.
        </p>
        {isWrong && <ProblemList problems={problems} />}
        <textarea
          id="table-text"
          name="table"
          rows={8}
          spellcheck={false}
          aria-describedby="table-said"
          {...(isWrong ? { 'aria-invalid': 'true' as const } : {})}
        >
          {text}
        </textarea>
        <p class="locker-buttons">
          <button name="do" value="look">
            Show what changes
          </button>
        </p>
        {changes !== null && <Preview changes={changes} />}
      </form>
    </details>
  );
}

function Preview({ changes }: { changes: readonly ChangeView[] }): JSX.Element {
  if (changes.length === 0)
    return (
      <p class="form-note" role="status">
        The table changes nothing.
      </p>
    );
  return (
    <div class="locker-preview" role="status">
      <p>
        <b>{changes.length === 1 ? 'One line changes.' : `${changes.length} lines change.`}</b> Nothing is saved yet.
      </p>
      <ChangeList changes={changes} />
      <p class="locker-buttons">
        <button class="main-button" name="do" value="save">
          Take this table over
        </button>
        <a class="button" href="/locker">
          Leave the locker as it is
        </a>
      </p>
    </div>
  );
}

/** What comes in, goes out and changes. */
export const ChangeList = ({ changes }: { changes: readonly ChangeView[] }): JSX.Element => (
  <ul class="locker-changes">
    {changes.map(({ word, name, text }) => (
      <li key={`${word} ${name}`}>
        <span class="word">{word}</span>
        <span>
          <b>{name}</b>: {text}
        </span>
      </li>
    ))}
  </ul>
);
