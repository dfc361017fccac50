import type { JSX } from 'preact';
import type { PassagePage } from '../../server/presenters/passage-page.ts';
import { JobsTable } from '../parts/jobs-table.tsx';
import { NextCardPart } from '../parts/next-card.tsx';
import { PlanNotesPart } from '../parts/plan-notes.tsx';
import { Problems } from '../parts/problems.tsx';
import { StripPart } from '../parts/strip.tsx';
import { Frame, type Style } from './frame.tsx';

/** Seconds after which a browser without script asks again while the plan is being made. */
const ASK_AGAIN_S = 3;

export function PassageDocument({ page, style }: { page: PassagePage; style: Style }): JSX.Element {
  const planned = page.kind === 'planned';
  return (
    <Frame
      title={planned ? `${page.name} – Slatch` : 'Slatch'}
      style={style}
      clock={planned ? page.clock : null}
      {...(page.kind === 'planning' ? { refreshS: ASK_AGAIN_S } : {})}
    >
      <PassageMain page={page} />
    </Frame>
  );
}

/** The part that changes: all of the page but its head. */
export function PassageMain({ page }: { page: PassagePage }): JSX.Element {
  if (page.kind === 'planning') return <Planning text={page.text} againHref={page.againHref} />;
  if (page.kind === 'failed') {
    return (
      <main id="passage" class="alone">
        <Problems problems={page.problems} />
      </main>
    );
  }
  return (
    <main id="passage">
      <p class="passage-name">{page.name}</p>
      {page.card === null ? <NoJobs /> : <NextCardPart card={page.card} />}
      <StripPart strip={page.strip} />
      <JobsTable rows={page.rows} />
      <PlanNotesPart notes={page.notes} />
    </main>
  );
}

function Planning({ text, againHref }: { text: string; againHref: string }): JSX.Element {
  return (
    <main
      id="passage"
      class="alone"
      aria-busy="true"
      hx-get={againHref}
      hx-trigger="load delay:1s"
      hx-target="#passage"
      hx-swap="outerHTML"
    >
      <section class="state" aria-labelledby="state-title">
        <h1 class="what" id="state-title">
          Planning…
        </h1>
        <p role="status">{text}</p>
        <p>Order, hours, handling and sleep are chosen together, over all scenarios of the forecast.</p>
      </section>
    </main>
  );
}

function NoJobs(): JSX.Element {
  return (
    <section class="next" aria-labelledby="next-what">
      <p class="label">Next</p>
      <h1 class="what" id="next-what">
        Nothing to mend
      </h1>
      <p>This passage has no jobs, so there is nothing to fit into its hours.</p>
    </section>
  );
}
