import type { JSX } from 'preact';
import type {
  CuttingView,
  LockerPage,
  LockerPages,
  LockerRow,
  TableView,
} from '../../server/presenters/locker-page.ts';
import { BarPicture } from '../parts/bar-drawing.tsx';
import { EntryFormMain } from '../parts/entry-form.tsx';
import { ProblemList } from '../parts/problems.tsx';
import { VersionField } from '../parts/version-field.tsx';
import { PlanDocument } from './document.tsx';
import type { Around } from './frame.tsx';

export function LockerDocument({ page, around }: { page: LockerPages; around: Around }): JSX.Element {
  return (
    <PlanDocument page={page} title="Locker" around={around} current="locker">
      <LockerMain page={page} />
    </PlanDocument>
  );
}

/** The part that changes: all of the page but its head. */
export const LockerMain = ({ page }: { page: LockerPages }): JSX.Element =>
  page.kind === 'entry' ? <EntryFormMain page={page} /> : <Whole page={page} />;

function Whole({ page }: { page: LockerPage }): JSX.Element {
  return (
    <main id="passage" class="locker-page">
      <p class="passage-name">{page.name}</p>
      <h1 class="what">Locker</h1>
      <Lacking page={page} />
      {page.rows.length === 0 ? (
        <p>Nothing is counted yet, so no job is refused for parts, and none is known to be ready.</p>
      ) : (
        <Items rows={page.rows} />
      )}
      <p class="sail-buttons">
        <a class="button" href="/locker/items/new">
          Add an item
        </a>
        <a class="button" href="/locker.csv">
          Table for a spreadsheet (CSV)
        </a>
      </p>
      <Table table={page.table} version={page.version} />
      <Cutting cutting={page.cutting} version={page.version} />
    </main>
  );
}

function Lacking({ page: { lacking, rows } }: { page: LockerPage }): JSX.Element | null {
  if (rows.length === 0) return null;
  if (lacking.length === 0) return <p>No job lacks a part or a tool.</p>;
  return (
    <section aria-labelledby="lacking-title">
      <h2 id="lacking-title">Lacking</h2>
      <ul class="plain">
        {lacking.map(({ jobId, jobName, texts }) => (
          <li key={jobId}>
            <a href={`/jobs/${jobId}`}>{jobName}</a>: {texts.join(' ')}
          </li>
        ))}
      </ul>
    </section>
  );
}

function Items({ rows }: { rows: readonly LockerRow[] }): JSX.Element {
  return (
    <div class="table-scroll" role="region" aria-label="Items" tabIndex={0}>
      <table class="locker-items">
        <thead>
          <tr>
            <th scope="col">Item</th>
            <th scope="col">On board</th>
            <th scope="col">Reserve</th>
            <th scope="col">May be taken</th>
            <th scope="col">Jobs take</th>
            <th scope="col">Where</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.index}>
              <th scope="row">
                <a href={`/locker/items/${row.index}`}>{row.item}</a>
                {row.kind !== 'material' && <small> {row.kind}</small>}
              </th>
              <td>{row.onBoard}</td>
              <td>{row.keep}</td>
              <td>{row.free}</td>
              <td>
                {row.takenBy.map(({ jobId, text }) => (
                  <a key={jobId} href={`/jobs/${jobId}`}>
                    {text}
                  </a>
                ))}
              </td>
              <td>{row.where}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** A table pasted in place of the list: first what it changes, then saved. */
function Table({ table, version }: { table: TableView; version: string }): JSX.Element {
  return (
    <details class="locker-table" open={table.text !== ''}>
      <summary>Paste a table in place of the list</summary>
      <form method="post" action="/locker/table">
        <VersionField version={version} />
        <label for="table">
          Table with a header: item, kind, amount, unit, keep, place, length_mm, diameter_mm, ready_utc
        </label>
        <textarea id="table" name="table" rows={8} spellcheck={false}>
          {table.text}
        </textarea>
        {table.problems.length > 0 && <ProblemList problems={table.problems} />}
        {table.changes !== null && (
          <ul class="plain" role="status">
            {table.changes.length === 0 && <li>It changes nothing.</li>}
            {table.changes.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        )}
        <p class="sail-buttons">
          <button name="do" value="look">
            See what it changes
          </button>
          {table.changes !== null && table.changes.length > 0 && (
            <button class="main-button" name="do" value="save">
              Take this table
            </button>
          )}
        </p>
      </form>
    </details>
  );
}

function Cutting({ cutting, version }: { cutting: CuttingView; version: string }): JSX.Element {
  return (
    <section id="cutting" class="cutting" aria-labelledby="cutting-title">
      <h2 id="cutting-title">Cut from the bars</h2>
      {cutting.pieces.length === 0 && <p>No piece is wanted. Add one, and it is fitted into the bars of the locker.</p>}
      <ul class="plain">
        {cutting.pieces.map(({ index, text }) => (
          <li key={index}>
            <a href={`/locker/pieces/${index}`}>{text}</a>
          </li>
        ))}
      </ul>
      <p class="sail-buttons">
        <a class="button" href="/locker/pieces/new">
          Add a piece
        </a>
      </p>
      {cutting.pieces.length > 0 && (
        <form method="post" action="/locker/kerf" class="sail-buttons kerf">
          <VersionField version={version} />
          <label for="kerf">
            The saw takes, in mm <small>default 3</small>
          </label>
          <input id="kerf" name="kerf" type="text" inputMode="decimal" value={cutting.kerf} />
          <button>Save</button>
        </form>
      )}
      {cutting.bars.map((bar) => (
        <BarPicture key={bar.barId} bar={bar} />
      ))}
      {cutting.sheet.map(({ heading, lines }) => (
        <div key={heading} class="sheet-part">
          <h3>{heading}</h3>
          <ul class="plain">
            {lines.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </div>
      ))}
      {cutting.afterCut.length > 0 && (
        <form method="post" action="/locker/sawn">
          <VersionField version={version} />
          <h3>Once it is sawn</h3>
          <ul class="plain">
            {cutting.afterCut.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
          <p class="sail-buttons">
            <button>It is sawn: change the locker so</button>
          </p>
        </form>
      )}
    </section>
  );
}
