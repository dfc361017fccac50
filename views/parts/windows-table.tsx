import type { JSX } from 'preact';
import type { WindowRow } from '../../server/presenters/windows-table.ts';

/** All windows of a job under all its handlings; on a phone the rows become cards by style alone. */
export function WindowsTable({ rows, hasParts }: { rows: readonly WindowRow[]; hasParts: boolean }): JSX.Element {
  return (
    <section class="jobs windows" aria-labelledby="windows-title">
      <h2 id="windows-title">
        All windows of this job <small>ship’s time</small>
      </h2>
      {rows.length === 0 ? (
        <p>None, under any of its handlings.</p>
      ) : (
        <table role="table">
          <thead role="rowgroup">
            <tr role="row">
              {hasParts && <Head text="Part" />}
              {['Start between', 'Handling', 'Best start', 'Of 100', 'Room', 'What binds', 'Standard criterion'].map(
                (text) => (
                  <Head key={text} text={text} />
                ),
              )}
            </tr>
          </thead>
          <tbody role="rowgroup">
            {rows.map((row) => (
              <Row key={row.key} row={row} hasParts={hasParts} />
            ))}
          </tbody>
        </table>
      )}
      <p class="subtitle">
        A window is a span of start times: started in it, the work and its contingency stay inside every limit with the
        chance you want; its surest starts stay fair even if the weather comes early or late. σ is the usual error of
        the forecast so far ahead. The standard criterion is the α-factor method of marine operations, a second opinion.
      </p>
    </section>
  );
}

const Head = ({ text }: { text: string }): JSX.Element => (
  <th scope="col" role="columnheader">
    {text}
  </th>
);

function Row({ row, hasParts }: { row: WindowRow; hasParts: boolean }): JSX.Element {
  const kind = row.isConditional ? 'conditional' : 'planned';
  return (
    <tr role="row" class={`${kind}${row.isShown ? ' chosen' : ''}`}>
      {hasParts && <Cell head="Part">{row.part}</Cell>}
      <th scope="row" role="rowheader">
        {row.between}
        {row.surest !== '' && <small class="surest">{row.surest}</small>}
        {row.note !== '' && <small class="note">{row.note}</small>}
      </th>
      <Cell head="Handling">{row.handling}</Cell>
      <td role="cell" data-head="Best start">
        <a
          href={row.bestHref}
          hx-get={row.bestHref}
          hx-target="#passage"
          hx-swap="outerHTML show:top"
          hx-push-url="true"
        >
          {row.best}
        </a>
      </td>
      <Cell head="Of 100">{row.of100}</Cell>
      <Cell head="Room">{row.room}</Cell>
      <Cell head="Binds">{row.binds}</Cell>
      <Cell head="Standard">{row.standard}</Cell>
    </tr>
  );
}

function Cell({ head, children }: { head: string; children: string }): JSX.Element {
  return (
    <td role="cell" data-head={head}>
      {children}
    </td>
  );
}
