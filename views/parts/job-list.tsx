import type { JSX } from 'preact';
import type { JobLink } from '../../server/presenters/job-page.ts';
import type { JobsPage, JobsRow, ProposalView } from '../../server/presenters/jobs-page.ts';
import { JobAdd } from './job-add.tsx';
import { TableHead } from './table-head.tsx';
import { VersionField } from './version-field.tsx';

/** All jobs in their order, what is proposed, and what can be added. */
export function JobListMain({ page }: { page: JobsPage }): JSX.Element {
  return (
    <main id="passage" class="jobs-page">
      <p class="passage-name">{page.name}</p>
      <div class="job-head">
        <h1 class="what">Jobs</h1>
        <p>{page.summary}</p>
      </div>
      {page.rows.length > 0 && <JobTable rows={page.rows} version={page.version} />}
      {page.proposals.length > 0 && <Proposals proposals={page.proposals} version={page.version} />}
      <JobAdd page={page} />
    </main>
  );
}

const HEADS = ['Job', 'Is it ready?', 'Work, half (90) of 100 tries', 'Comes after', 'The plan', 'Place in the list'];

function JobTable({ rows, version }: { rows: readonly JobsRow[]; version: string }): JSX.Element {
  return (
    <section class="job-list" aria-labelledby="job-list-title">
      <h2 id="job-list-title">
        In their order <small>the plan may work them in another</small>
      </h2>
      <table role="table">
        <TableHead heads={HEADS} />
        <tbody role="rowgroup">
          {rows.map((row) => (
            <Row key={row.jobId} row={row} version={version} />
          ))}
        </tbody>
      </table>
    </section>
  );
}

function Row({ row, version }: { row: JobsRow; version: string }): JSX.Element {
  return (
    <tr role="row" class={`job-row is-${row.status}`} id={`job-${row.jobId}`}>
      <th scope="row" role="rowheader">
        <a href={row.href}>{row.text}</a>
        <small>Priority {row.priority}</small>
      </th>
      <td role="cell" data-head="Ready?">
        <b class="job-state">{row.readiness}</b>
        {row.reason !== '' && <small>{row.reason}</small>}
      </td>
      <td role="cell" data-head="Work">
        {row.minutes}
        {row.own !== '' && <small>{row.own}</small>}
      </td>
      <td role="cell" data-head="After" class={row.after.length === 0 ? 'empty' : undefined}>
        <LinkList links={row.after} none="none" />
      </td>
      <td role="cell" data-head="Plan">
        {row.plan.when}
        {row.plan.more !== '' && <small>{row.plan.more}</small>}
      </td>
      <td role="cell" data-head="Place" class="job-moves">
        <form method="post" action={`${row.href}/move`}>
          <VersionField version={version} />
          <button name="by" value="up" disabled={!row.canGoUp} aria-label={`Move ${row.text} up`}>
            Up
          </button>
          <button name="by" value="down" disabled={!row.canGoDown} aria-label={`Move ${row.text} down`}>
            Down
          </button>
        </form>
      </td>
    </tr>
  );
}

/** Names with links, joined by commas. */
export function LinkList({ links, none }: { links: readonly JobLink[]; none: string }): JSX.Element {
  if (links.length === 0) return <small>{none}</small>;
  return (
    <ul class="job-links">
      {links.map(({ href, text }) => (
        <li key={href}>
          <a href={href}>{text}</a>
        </li>
      ))}
    </ul>
  );
}

function Proposals({ proposals, version }: { proposals: readonly ProposalView[]; version: string }): JSX.Element {
  return (
    <section class="proposals" aria-labelledby="proposals-title">
      <h2 id="proposals-title">Proposed</h2>
      <ul>
        {proposals.map(({ key, text, button }) => (
          <li key={key}>
            <p>{text}</p>
            {button !== '' && (
              <form method="post" action="/jobs">
                <VersionField version={version} />
                <input type="hidden" name="kind" value="proposal" />
                <button name="proposal" value={key} aria-label={`${button}: ${text}`}>
                  {button}
                </button>
              </form>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
