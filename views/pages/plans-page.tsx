import type { JSX } from 'preact';
import type { ComparedPlans, PlanRow, PlansPage } from '../../server/presenters/plans-page.ts';
import { ProblemList } from '../parts/problems.tsx';
import { PlanDocument } from './document.tsx';
import type { Around } from './frame.tsx';

export function PlansDocument({ page, around }: { page: PlansPage; around: Around }): JSX.Element {
  return (
    <PlanDocument page={page} title="Plans" around={around} current="plan">
      <PlansMain page={page} />
    </PlanDocument>
  );
}

/** The part that changes: all of the page but its head. */
export function PlansMain({ page }: { page: PlansPage }): JSX.Element {
  return (
    <main id="passage" class="plans-page">
      <section aria-labelledby="plans-title">
        <h1 class="what" id="plans-title">
          Every plan of this passage
        </h1>
        <p class="plans-said">
          Each plan that was finished has a number and stays as it was made. The number stands on the plan, on its
          sheets and in its messages: where they differ, somebody looks at another plan.
        </p>
        {page.problems.length > 0 && <ProblemList problems={page.problems} />}
      </section>
      {page.compared !== null && <ComparedPart compared={page.compared} />}
      {page.choice !== null && <ChoicePart choice={page.choice} />}
      {page.rows.length === 0 ? <p>There is no finished plan yet.</p> : <PlanTable rows={page.rows} />}
    </main>
  );
}

function ComparedPart({ compared }: { compared: ComparedPlans }): JSX.Element {
  return (
    <section class="compared" id="changes" aria-labelledby="changes-title">
      <h2 id="changes-title">{compared.title}</h2>
      {compared.sentences.length === 0 ? (
        <p>Nothing has changed.</p>
      ) : (
        <ul class="plain">
          {compared.sentences.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
      {compared.causes.length > 0 && (
        <>
          <h3>What was new</h3>
          <ul class="plain">
            {compared.causes.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

function ChoicePart({ choice }: { choice: NonNullable<PlansPage['choice']> }): JSX.Element {
  return (
    <form class="plans-choice" method="get" action="/plans#changes">
      <Choice name="from" label="What changed from" options={choice.options} chosen={choice.from} />
      <Choice name="to" label="to" options={choice.options} chosen={choice.to} />
      <button>Compare</button>
    </form>
  );
}

interface ChoiceProps {
  readonly name: string;
  readonly label: string;
  readonly options: NonNullable<PlansPage['choice']>['options'];
  readonly chosen: string;
}

const Choice = ({ name, label, options, chosen }: ChoiceProps): JSX.Element => (
  <label>
    <span>{label}</span>
    <select name={name}>
      {options.map(({ value, text }) => (
        <option key={value} value={value} selected={value === chosen}>
          {text}
        </option>
      ))}
    </select>
  </label>
);

function PlanTable({ rows }: { rows: readonly PlanRow[] }): JSX.Element {
  return (
    <section aria-labelledby="plans-list-title">
      <h2 id="plans-list-title">The list</h2>
      <table class="plans-table">
        <thead>
          <tr>
            <th scope="col">Plan</th>
            <th scope="col">Made</th>
            <th scope="col">Forecast of</th>
            <th scope="col">Made of</th>
            <th scope="col">Jobs</th>
            <th scope="col">All inside limits</th>
            <th scope="col">See</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <Row key={row.number} row={row} />
          ))}
        </tbody>
      </table>
    </section>
  );
}

const Row = ({ row }: { row: PlanRow }): JSX.Element => (
  <tr class={row.isShown ? 'chosen' : undefined}>
    <th scope="row">
      {row.number}
      {row.isShown && <small> shown now</small>}
    </th>
    <td data-head="Made">
      {row.made} <small>{row.madeUtc}</small>
    </td>
    <td data-head="Forecast of">{row.forecast}</td>
    <td data-head="Made of">{row.of}</td>
    <td data-head="Jobs">
      {row.jobs}
      {row.note !== '' && <small> {row.note}</small>}
    </td>
    <td data-head="All inside limits">{row.chance}</td>
    <td data-head="See">
      {row.changesHref !== null && (
        <a href={row.changesHref} aria-label={`What changed with plan ${row.number}`}>
          What changed
        </a>
      )}
      <a href={row.fileHref} aria-label={`Plan ${row.number} as JSON`}>
        JSON
      </a>
    </td>
  </tr>
);
