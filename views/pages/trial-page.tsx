import type { ComponentChildren, JSX } from 'preact';
import type {
  NoTrialPage,
  TrialPage,
  TrialUnderWayPage,
  TrialWithoutPlanPage,
  WholeTrialPage,
} from '../../server/presenters/trial-page.ts';
import { ProblemList } from '../parts/problems.tsx';
import { Sentences } from '../parts/sentences.tsx';
import { StripPart } from '../parts/strip.tsx';
import { TrialFigures, TrialTable } from '../parts/trial-tables.tsx';
import { TrialStartForm } from '../parts/trial-start.tsx';
import { type Around, Frame } from './frame.tsx';

/** Seconds after which a browser without script asks again while the trial is being made. */
const ASK_AGAIN_S = 3;

export function TrialDocument({ page, around }: { page: TrialPage; around: Around }): JSX.Element {
  const isTrying = page.kind === 'trying';
  const words = ['Trial', ...(page.kind === 'none' ? [] : [page.name]), 'Slatch'];
  return (
    <Frame
      title={words.join(' – ')}
      around={around}
      clock={page.kind === 'none' ? null : page.clock}
      current="plan"
      {...(isTrying ? { refreshS: ASK_AGAIN_S } : {})}
    >
      <TrialMain page={page} />
      {isTrying && <StopForm number={page.number} />}
    </Frame>
  );
}

/** The part that changes: all of the page but its head. */
export function TrialMain({ page }: { page: TrialPage }): JSX.Element {
  if (page.kind === 'none') return <NoTrial page={page} />;
  if (page.kind === 'trying') return <Trying page={page} />;
  return page.kind === 'trial' ? <WholeTrial page={page} /> : <WithoutPlan page={page} />;
}

function NoTrial({ page: { refused, hasTrial, windowsHref } }: { page: NoTrialPage }): JSX.Element {
  return (
    <main id="passage" class="alone">
      <section class="state" aria-labelledby="state-title">
        <h1 class="what" id="state-title">
          {refused?.title ?? 'No start is being tried'}
        </h1>
        {refused === null ? (
          <p>
            Choose a job and a start on the page of its windows, and press “Try this in the plan”: a plan with that
            start is made beside the one that stands, and what it changes is shown here. Nothing is saved before you
            take it.
          </p>
        ) : (
          <ProblemList problems={refused.problems} />
        )}
        <p class="trial-ways">
          {hasTrial && <a href="/trial">The trial that is there now</a>}
          <a href={windowsHref}>{hasTrial ? 'Its look at the windows' : 'Windows'}</a>
          <a href="/plan">The plan that stands</a>
        </p>
      </section>
    </main>
  );
}

/** What is tried, over every page of a trial. */
function Heading({
  page,
  children,
}: {
  page: Exclude<TrialPage, NoTrialPage>;
  children?: ComponentChildren;
}): JSX.Element {
  return (
    <>
      <p class="label">Trial: not the plan, and nothing of it is saved</p>
      <h1 class="what" id="trial-title">
        {page.jobName}
      </h1>
      <p class="when">
        {page.when} <small>{page.whenUtc}</small>
      </p>
      {children}
    </>
  );
}

function Trying({ page }: { page: TrialUnderWayPage }): JSX.Element {
  return (
    <main
      id="passage"
      class="alone"
      aria-busy="true"
      hx-get="/trial"
      hx-trigger="load delay:1s"
      hx-target="#passage"
      hx-swap="outerHTML"
    >
      <section class="state" aria-labelledby="trial-title">
        <Heading page={page} />
        <p class="trial-doing">{page.isStopping ? 'Stopping…' : 'Trying this start in the plan…'}</p>
        <p role="status">{page.text}</p>
        <p>
          All jobs, handling and sleep are planned anew around this start. The plan that stands is left as it is, and
          every other page can be used meanwhile.
        </p>
      </section>
    </main>
  );
}

/** Stands beside the part that asks again by itself, so that the button is not replaced while it is pressed. */
const StopForm = ({ number }: { number: number }): JSX.Element => (
  <form class="stop" method="post" action="/trial/stop">
    <NumberField number={number} />
    <button>Stop, and show the best found so far</button>
  </form>
);

const NumberField = ({ number }: { number: number }): JSX.Element => (
  <input type="hidden" name="trial" value={String(number)} />
);

function WithoutPlan({ page }: { page: TrialWithoutPlanPage }): JSX.Element {
  return (
    <main id="passage" class="alone">
      <section class="state" aria-labelledby="trial-title">
        <Heading page={page} />
        {page.kind === 'stopped' ? (
          <p>The trial was stopped before a plan was found. Nothing else was changed; the plan stands as it did.</p>
        ) : (
          <>
            <p>No plan could be made with this start. The plan stands as it did.</p>
            <ProblemList problems={page.problems} />
          </>
        )}
        <div class="trial-buttons">
          <LeaveForm number={page.number} />
          <a href={page.lookHref}>Look at this start</a>
        </div>
      </section>
    </main>
  );
}

function WholeTrial({ page }: { page: WholeTrialPage }): JSX.Element {
  return (
    <main id="passage" class="trial-page">
      <section class="trial-answer" aria-labelledby="trial-title">
        <Heading page={page} />
        {page.miss !== null && <Miss page={page} miss={page.miss} />}
        {page.outdated !== null && (
          <div class="standing outlined">
            <p>{page.outdated.text}</p>
            {page.outdated.again !== null && (
              <TrialStartForm start={page.outdated.again} button="Try this start again" />
            )}
          </div>
        )}
        <Sentences sentences={page.sentences} />
        <div class="trial-buttons">
          {page.canTake && <TakeForm number={page.number} />}
          <LeaveForm number={page.number} />
          <a href={page.lookHref}>Look at this start</a>
        </div>
        {page.canTake && (
          <p class="trial-hint">
            “Take this plan” locks the job to this start and makes this the plan that stands. It can be taken back.
          </p>
        )}
      </section>
      {page.fallOut.length > 0 && <FallOut sentences={page.fallOut} />}
      <TrialFigures figures={page.figures} against={page.against} />
      <TrialTable rows={page.rows} against={page.against} />
      <StripPart strip={page.strip} />
    </main>
  );
}

function Miss({ page, miss }: { page: WholeTrialPage; miss: NonNullable<WholeTrialPage['miss']> }): JSX.Element {
  return (
    <div class="trial-miss">
      <p>
        <strong>There is no plan with this start:</strong> “{page.jobName}” would not be planned at all. {miss.text}
      </p>
      <p>What would help: {miss.wouldHelp}</p>
      {miss.nearest !== null && (
        <p>
          <a href={miss.nearest.href}>{miss.nearest.text}</a>
        </p>
      )}
    </div>
  );
}

const FallOut = ({ sentences }: { sentences: readonly string[] }): JSX.Element => (
  <section class="trial-out" aria-labelledby="trial-out-title">
    <h2 id="trial-out-title">What falls out of the plan</h2>
    <ul class="plain">
      {sentences.map((sentence) => (
        <li key={sentence}>{sentence}</li>
      ))}
    </ul>
  </section>
);

const TakeForm = ({ number }: { number: number }): JSX.Element => (
  <form method="post" action="/trial/take">
    <NumberField number={number} />
    <button class="main-button">Take this plan</button>
  </form>
);

const LeaveForm = ({ number }: { number: number }): JSX.Element => (
  <form method="post" action="/trial/leave">
    <NumberField number={number} />
    <button>Leave it</button>
  </form>
);
