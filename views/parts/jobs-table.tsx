import type { JSX } from 'preact';
import type { JobRow } from '../../server/presenters/job-rows.ts';
import { TableHead } from './table-head.tsx';

const heads = [
  ['name', 'Job'],
  ['start', 'Start'],
  ['of100', 'Of 100'],
  ['room', 'Room to limit'],
  ['binds', 'What binds'],
  ['if-not', 'If not'],
] as const;

/**
 * All jobs by time; a row's link chooses the job. On a phone the rows become cards by style alone, and the roles keep
 * the table a table for those who hear it.
 */
export function JobsTable({ rows }: { rows: readonly JobRow[] }): JSX.Element {
  return (
    <section class="jobs" aria-labelledby="jobs-title">
      <h2 id="jobs-title">
        Jobs <small>ship’s time</small>
      </h2>
      {rows.length === 0 ? (
        <p>This passage has no jobs. Add them to the passage file under “jobs”, and the plan finds their hours.</p>
      ) : (
        <table role="table">
          <colgroup>
            {heads.map(([id]) => (
              <col key={id} class={id} />
            ))}
          </colgroup>
          <TableHead heads={heads.map(([, head]) => head)} />
          <tbody role="rowgroup">
            {rows.map((row) => (
              <Row key={row.jobId} row={row} />
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
}

function Row({ row }: { row: JobRow }): JSX.Element {
  return (
    <tr role="row" class={`${row.status}${row.isChosen ? ' chosen' : ''}`}>
      <th scope="row" role="rowheader">
        <a
          id={`job-${row.jobId}`}
          href={row.href}
          aria-current={row.isChosen ? 'true' : undefined}
          hx-get={row.href}
          hx-target="#passage"
          hx-swap="outerHTML show:top"
          hx-push-url="true"
        >
          {row.name}
        </a>
        {row.note !== '' && <small class="note">{row.note}</small>}
      </th>
      <Cell head="Start">{row.start}</Cell>
      <Cell head="Of 100">{row.of100}</Cell>
      <Cell head="Room">{row.room}</Cell>
      <Cell head="Binds">{row.binds}</Cell>
      <Cell head="If not">{row.ifNot}</Cell>
    </tr>
  );
}

function Cell({ head, children }: { head: string; children: string }): JSX.Element {
  return (
    <td role="cell" data-head={head} class={children === '' ? 'empty' : undefined}>
      {children}
    </td>
  );
}
