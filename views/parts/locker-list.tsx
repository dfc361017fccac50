import type { JSX } from 'preact';
import type { LockerPage } from '../../server/presenters/locker-page.ts';
import type { LockerRow } from '../../server/presenters/locker-rows.ts';
import type { ShortJob } from '../../server/presenters/locker-short.ts';
import { LinkList } from './job-list.tsx';
import { LockerCutting } from './locker-cutting.tsx';
import { LockerTable } from './locker-table.tsx';
import { TableHead } from './table-head.tsx';

/** What the jobs lack, all that is on board, and what is cut from it. */
export function LockerMainPart({ page }: { page: LockerPage }): JSX.Element {
  const { stock, tools } = page.rows;
  return (
    <main id="passage" class="locker-page">
      <p class="passage-name">{page.name}</p>
      <div class="job-head">
        <h1 class="what">Locker</h1>
        <p>{page.summary}</p>
        <p class="locker-places">
          {tools.length > 0 && <a href="#tools">Tools</a>}
          <a href="#table">Read a table</a>
          <a href="#cutting">Cut from the bars</a>
        </p>
      </div>
      {page.short.length > 0 && <Short short={page.short} />}
      <section class="locker-stock" aria-labelledby="stock-title">
        <h2 id="stock-title">
          On board now <small>{page.counted}</small>
        </h2>
        {stock.length > 0 && <Stock rows={stock} />}
        {tools.length > 0 && <Tools rows={tools} />}
        <p class="locker-buttons">
          <a class="button" href="/locker/items/new">
            Add a line
          </a>
          <a class="button" href="/locker.csv">
            Save it as a table (CSV)
          </a>
        </p>
        <LockerTable table={page.table} version={page.version} />
      </section>
      <LockerCutting page={page} />
    </main>
  );
}

/** Job by job what it lacks, and what can be done. */
function Short({ short }: { short: readonly ShortJob[] }): JSX.Element {
  return (
    <section class="locker-short" aria-labelledby="short-title">
      <h2 id="short-title">What the jobs lack</h2>
      <ul class="findings">
        {short.map(({ job, lacks }) => (
          <li key={job.href} class="bars">
            <p>
              <a class="job-name" href={job.href}>
                {job.text}
              </a>
            </p>
            {lacks.map(({ text, remedies, fix }) => (
              <div key={text} class="lack">
                <p>{text}</p>
                {remedies.length > 0 && (
                  <ul class="plain">
                    {remedies.map((remedy) => (
                      <li key={remedy}>{remedy}</li>
                    ))}
                  </ul>
                )}
                {fix !== null && (
                  <p>
                    <a class="fix" href={fix.href}>
                      {fix.text}
                    </a>
                  </p>
                )}
              </div>
            ))}
          </li>
        ))}
      </ul>
    </section>
  );
}

const STOCK_HEADS = ['Material and bars', 'On board', 'Reserve', 'May be taken', 'Jobs take', 'Where it is stowed'];

function Stock({ rows }: { rows: readonly LockerRow[] }): JSX.Element {
  return (
    <table role="table" class="locker-table of-stock">
      <TableHead heads={STOCK_HEADS} />
      <tbody role="rowgroup">
        {rows.map((row) => (
          <tr key={row.href} role="row" class={row.isShort ? 'is-short' : undefined}>
            <Name row={row} />
            <td role="cell" data-head="On board">
              {row.onBoard}
            </td>
            <td role="cell" data-head="Reserve" class={row.keep === '' ? 'empty' : undefined}>
              {row.keep === '' ? <small>none</small> : row.keep}
            </td>
            <td role="cell" data-head="May be taken">
              {row.free}
            </td>
            <td role="cell" data-head="Jobs take" class={row.left === '' ? 'empty' : undefined}>
              {row.takes.length > 0 && <LinkList links={row.takes} none="" />}
              {row.left !== '' && (row.isShort ? <b class="short">{row.left}</b> : <small>{row.left}</small>)}
            </td>
            <Place row={row} />
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const TOOL_HEADS = ['Tools', 'On board', 'Wanted by', 'Where it is stowed'];

function Tools({ rows }: { rows: readonly LockerRow[] }): JSX.Element {
  return (
    <table role="table" class="locker-table of-tools" id="tools">
      <TableHead heads={TOOL_HEADS} />
      <tbody role="rowgroup">
        {rows.map((row) => (
          <tr key={row.href} role="row">
            <Name row={row} />
            <td role="cell" data-head="On board">
              {row.onBoard}
            </td>
            <td role="cell" data-head="Wanted by" class={row.takes.length === 0 ? 'empty' : undefined}>
              {row.takes.length === 0 ? <small>no job</small> : <LinkList links={row.takes} none="" />}
            </td>
            <Place row={row} />
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const Name = ({ row }: { row: LockerRow }): JSX.Element => (
  <th scope="row" role="rowheader">
    <a href={row.href}>{row.item}</a>
    {row.size !== '' && <small>{row.size}</small>}
    {row.notes.map((note) => (
      <small key={note} class="note">
        {note}
      </small>
    ))}
  </th>
);

const Place = ({ row: { place } }: { row: LockerRow }): JSX.Element => (
  <td role="cell" data-head="In" class={place === '' ? 'empty' : undefined}>
    {place === '' ? <small>not said</small> : place}
  </td>
);
