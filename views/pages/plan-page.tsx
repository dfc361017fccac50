import type { JSX } from 'preact';
import type { Changes, PlanPage } from '../../server/presenters/plan-page.ts';
import { JobReasons } from '../parts/job-reasons.tsx';
import { Facts } from '../parts/next-card.tsx';
import { PlanNotesPart } from '../parts/plan-notes.tsx';
import { NotRenewed } from '../parts/problems.tsx';
import { Sentences } from '../parts/sentences.tsx';
import { StateMain } from '../parts/state.tsx';
import { StripPart } from '../parts/strip.tsx';
import { WatchBillPart } from '../parts/watch-bill.tsx';
import { WatchkeeperPart } from '../parts/watchkeeper.tsx';
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
        <PlanFiles />
      </section>
      <StripPart strip={page.strip} />
      <WatchBillPart bill={page.bill} />
      <WatchkeeperPart watchkeeper={page.watchkeeper} />
      <JobReasons reasons={page.reasons} />
      <PlanNotesPart notes={{ ...page.notes, whole: [] }} />
    </main>
  );
}

function ChangesPart({ changes }: { changes: Changes }): JSX.Element {
  return (
    <div class="changes">
      <h2>What changed since {changes.since}</h2>
      {changes.sentences.length === 0 ? (
        <p>Nothing has changed.</p>
      ) : (
        <ul class="plain">
          {changes.sentences.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
      {changes.href !== null && <a href={changes.href}>Both plans, and what they were made of</a>}
    </div>
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
