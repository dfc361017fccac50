import type { JSX } from 'preact';
import type { TrialFigure } from '../../server/presenters/trial-figures.ts';
import type { JobCell, TrialRow } from '../../server/presenters/trial-rows.ts';

/** The whole in figures: the plan that stands, and the trial beside it. */
export function TrialFigures({ figures, against }: { figures: readonly TrialFigure[]; against: string }): JSX.Element {
  return (
    <section aria-labelledby="trial-whole-title">
      <h2 id="trial-whole-title">The whole</h2>
      <table class="trial-table trial-figures">
        <thead>
          <tr>
            <th scope="col">Figure</th>
            <th scope="col">As it stands, {against}</th>
            <th scope="col">With this start</th>
          </tr>
        </thead>
        <tbody>
          {figures.map(({ term, before, after, isSame }) => (
            <tr key={term} class={isSame ? 'same' : undefined}>
              <th scope="row">{term}</th>
              <td data-head="As it stands">{before}</td>
              <td data-head="With this start">{after}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** Job by job: when and how sure in both, and why. */
export function TrialTable({ rows, against }: { rows: readonly TrialRow[]; against: string }): JSX.Element {
  return (
    <section aria-labelledby="trial-jobs-title">
      <h2 id="trial-jobs-title">Job by job</h2>
      <table class="trial-table">
        <thead>
          <tr>
            <th scope="col">Job</th>
            <th scope="col">As it stands, {against}</th>
            <th scope="col">With this start</th>
            <th scope="col">What changes</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <Row key={row.jobId} row={row} />
          ))}
        </tbody>
      </table>
    </section>
  );
}

const Row = ({ row }: { row: TrialRow }): JSX.Element => (
  <tr class={classOf(row)}>
    <th scope="row">
      {row.name}
      {row.isTried && <small> its start is tried</small>}
    </th>
    <td data-head="As it stands">
      <Cell cell={row.before} />
    </td>
    <td data-head="With this start">
      <Cell cell={row.after} />
    </td>
    <td data-head="What changes">
      {row.changes.length === 0 ? (
        'nothing'
      ) : (
        <ul>
          {row.changes.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
    </td>
  </tr>
);

const Cell = ({ cell: { start, chance } }: { cell: JobCell }): JSX.Element => (
  <>
    <b>{start}</b>
    {chance !== '' && <small> {chance}</small>}
  </>
);

function classOf({ isTried, changes }: TrialRow): string | undefined {
  if (isTried) return 'chosen';
  return changes.length === 0 ? 'same' : undefined;
}
