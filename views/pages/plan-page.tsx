import type { JSX } from 'preact';
import type { PlanPage } from '../../server/presenters/plan-page.ts';
import { ChangesPart } from '../parts/changes.tsx';
import { JobReasons } from '../parts/job-reasons.tsx';
import { Facts } from '../parts/next-card.tsx';
import { PlanNotesPart } from '../parts/plan-notes.tsx';
import { NotRenewed } from '../parts/problems.tsx';
import { Sentences } from '../parts/sentences.tsx';
import { StateMain } from '../parts/state.tsx';
import { StripPart } from '../parts/strip.tsx';
import { WatchBillPart } from '../parts/watch-bill.tsx';
import { PlanDocument } from './document.tsx';
import type { Around } from './frame.tsx';

export function PlanPageDocument({ page, around }: { page: PlanPage; around: Around }): JSX.Element {
  return (
    <PlanDocument page={page} title="Plan" around={around} current="plan">
      <PlanPageMain page={page} />
    </PlanDocument>
  );
}

/** The part that changes: all of the page but its head. */
export function PlanPageMain({ page }: { page: PlanPage }): JSX.Element {
  if (page.kind !== 'plan') return <StateMain page={page} />;
  return (
    <main id="passage" class="plan-page">
      <section class="whole" aria-labelledby="plan-title">
        <h1 class="what" id="plan-title">
          {page.name}
        </h1>
        <p class="plan-number">
          <a href="/plans">{page.number}</a>
        </p>
        <NotRenewed problems={page.notRenewed} />
        <Sentences sentences={page.sentences} />
        <Facts facts={page.notes.whole} />
        {page.changes !== null && <ChangesPart changes={page.changes} />}
        <form class="once again" method="post" action="/plan/again">
          <button>Make the plan again</button>
        </form>
        <p class="to-order">
          <a href="/plan/order">Change the order of the work</a>
        </p>
        <PlanFiles />
        <OnThisPage />
      </section>
      <StripPart strip={page.strip} />
      <WatchBillPart bill={page.bill} />
      <WatchPart sentences={page.watch} />
      <JobReasons reasons={page.reasons} />
      <PlanNotesPart notes={{ ...page.notes, whole: [] }} />
    </main>
  );
}

/** Ways down a long page. */
const OnThisPage = (): JSX.Element => (
  <nav class="on-page" aria-label="On this page">
    <a href="#bill-title">Watch bill</a>
    <a href="#watch-title">Watchkeeper</a>
    <a href="#reasons-title">Job by job: why, and what if not</a>
    <a href="#relied-title">Before you rely on it</a>
  </nav>
);

function WatchPart({ sentences }: { sentences: readonly string[] }): JSX.Element {
  return (
    <section class="watch-short" aria-labelledby="watch-title">
      <h2 id="watch-title">Watchkeeper</h2>
      <Sentences sentences={sentences} />
      <p>
        <a href="/plan/watchkeeper">Alertness hour by hour, what each sleep buys, why work takes longer</a>
      </p>
    </section>
  );
}

/** The plan as files of general use. */
const PlanFiles = (): JSX.Element => (
  <p class="plan-files">
    Take it along: <a href="/plan.ics">calendar with alarms</a>
    <a href="/plan.gpx">places of the jobs (GPX)</a>
    <a href="/plan.csv">table (CSV)</a>
    <a href="/plan.txt">watch bill (text)</a>
  </p>
);
