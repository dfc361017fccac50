import type { JSX } from 'preact';
import type { Move, OrderedAfter, OrderPage, OrderRow } from '../../server/presenters/order-page.ts';
import { ProblemList } from '../parts/problems.tsx';
import { VersionField } from '../parts/version-field.tsx';
import { PlanDocument } from './document.tsx';
import type { Around } from './frame.tsx';

export function OrderDocument({ page, around }: { page: OrderPage; around: Around }): JSX.Element {
  return (
    <PlanDocument page={page} title="Order of the work" around={around} current="plan">
      <OrderMain page={page} />
    </PlanDocument>
  );
}

/** The part that changes: all of the page but its head. */
export function OrderMain({ page }: { page: OrderPage }): JSX.Element {
  return (
    <main id="passage" class="alone order-page">
      <p class="passage-name">
        <a href="/plan">Plan</a>, {page.name}
      </p>
      <h1 class="what">Order of the work</h1>
      <p>
        The plan chooses the order, unless you do. A job that is ordered after another waits until that one is finished,
        with its drying and curing; where the first cannot be planned, neither can the second. Every change makes the
        plan anew, and can be taken back.
      </p>
      {page.problems.length > 0 && <ProblemList problems={page.problems} />}
      {page.rows.length === 0 && <p>No job is left to be done.</p>}
      <ol class="order-list">
        {page.rows.map((row) => (
          <Row key={row.jobId} row={row} version={page.version} />
        ))}
      </ol>
      {page.choices.length > 0 && <Choose page={page} />}
      <p class="hint">
        Some orders are there because the work needs them: a sail comes down before it is sewn. Take out what you put in
        yourself; what a job needs is said on the page of <a href="/jobs">jobs</a>.
      </p>
    </main>
  );
}

function Row({ row, version }: { row: OrderRow; version: string }): JSX.Element {
  const moves = [row.earlier, row.later].filter((move) => move !== null);
  const refused = moves.filter((move) => move.kind === 'cannot');
  return (
    <li id={`order-${row.jobId}`}>
      <p class="order-job">
        <a href={row.href}>
          <b>{row.text}</b>
        </a>{' '}
        <span>{row.when}</span>
      </p>
      <div class="order-moves">
        {moves.map((move) => move.kind === 'can' && <MoveButton key={move.label} move={move} version={version} />)}
      </div>
      {refused.length > 0 && <p class="order-why">{refused.map(({ text }) => text).join(' ')}</p>}
      {row.after.length > 0 && (
        <details class="order-after">
          <summary>Ordered after {row.after.map(({ text }) => `“${text}”`).join(', ')}</summary>
          <ul class="plain">
            {row.after.map((one) => (
              <After key={one.firstId} one={one} row={row} version={version} />
            ))}
          </ul>
        </details>
      )}
    </li>
  );
}

function MoveButton({ move, version }: { move: Extract<Move, { kind: 'can' }>; version: string }): JSX.Element {
  return (
    <form method="post" action="/plan/order">
      <VersionField version={version} />
      <input type="hidden" name="first" value={move.firstId} />
      <input type="hidden" name="second" value={move.secondId} />
      <button aria-label={move.label}>{move.text}</button>
    </form>
  );
}

function After({ one, row, version }: { one: OrderedAfter; row: OrderRow; version: string }): JSX.Element {
  return (
    <li>
      <form method="post" action="/plan/order/out">
        <span>After “{one.text}”</span>
        <VersionField version={version} />
        <input type="hidden" name="first" value={one.firstId} />
        <input type="hidden" name="second" value={one.secondId} />
        <button aria-label={`Take this order out: “${row.text}” after “${one.text}”`}>Take this order out</button>
      </form>
    </li>
  );
}

/** Any two jobs, however far from one another. */
function Choose({ page }: { page: OrderPage }): JSX.Element {
  const { choices, chosen, version } = page;
  const select = (id: string, name: 'first' | 'second', chosenId: string | undefined): JSX.Element => (
    <select id={id} name={name}>
      <option value="">Choose a job</option>
      {choices.map(({ jobId, text }) => (
        <option key={jobId} value={jobId} selected={jobId === chosenId}>
          {text}
        </option>
      ))}
    </select>
  );
  return (
    <section aria-labelledby="order-choose">
      <h2 id="order-choose">Put one job before another</h2>
      <form class="order-choose" method="post" action="/plan/order">
        <VersionField version={version} />
        <label for="order-first">First</label>
        {select('order-first', 'first', chosen?.firstId)}
        <label for="order-second">and only then</label>
        {select('order-second', 'second', chosen?.secondId)}
        <button class="main-button">Order them, and make the plan</button>
      </form>
    </section>
  );
}
