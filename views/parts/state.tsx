import type { JSX } from 'preact';
import type { StatePage } from '../../server/presenters/state-page.ts';
import { Problems } from './problems.tsx';

/** Any page while there is no plan to show. */
export function StateMain({ page }: { page: StatePage }): JSX.Element {
  if (page.kind === 'planning') return <Planning page={page} />;
  return (
    <main id="passage" class="alone">
      {page.kind === 'failed' ? <Problems problems={page.problems} /> : <Stopped />}
      {page.kind === 'failed' && <FirstSteps />}
      <form class="once" method="post" action="/plan/again">
        <button class="main-button">Make the plan</button>
      </form>
    </main>
  );
}

/** What can be done where nothing could be planned, whatever the reason. */
const FirstSteps = (): JSX.Element => (
  <p class="first-steps">
    No passage of your own yet? <a href="/new">Begin one</a>: a track and a forecast are enough. A forecast is got, or
    its file added, on the page <a href="/forecast">Forecast</a>; other passages are <a href="/document">kept here</a>.
  </p>
);

function Planning({ page }: { page: StatePage & { readonly kind: 'planning' } }): JSX.Element {
  return (
    <main
      id="passage"
      class="alone"
      aria-busy="true"
      hx-get={page.againHref}
      hx-trigger="load delay:1s"
      hx-target="#passage"
      hx-swap="outerHTML"
    >
      <section class="state" aria-labelledby="state-title">
        <h1 class="what" id="state-title">
          {page.isStopping ? 'Stopping…' : 'Planning…'}
        </h1>
        <p role="status">{page.text}</p>
        <p>Order, hours, handling and sleep are chosen together, over all scenarios of the forecast.</p>
      </section>
    </main>
  );
}

function Stopped(): JSX.Element {
  return (
    <section class="state" aria-labelledby="state-title">
      <h1 class="what" id="state-title">
        Stopped
      </h1>
      <p>
        The making of the plan was stopped before one was found, so there is no plan to show. Nothing else was changed.
      </p>
    </section>
  );
}

/**
 * Stands beside the part that asks again by itself, so that the button is not replaced while it is pressed; style hides
 * it once the plan is there.
 */
export function StopForm(): JSX.Element {
  return (
    <form class="stop" method="post" action="/plan/stop">
      <button>Stop, and take the best plan found so far</button>
    </form>
  );
}
