import type { JSX } from 'preact';
import type { JobPage, WindowsPage } from '../../server/presenters/windows-page.ts';
import type { Sentence } from '../../server/presenters/windows-sentences.ts';
import { Facts } from '../parts/next-card.tsx';
import { StartCardPart } from '../parts/start-card.tsx';
import { StateMain } from '../parts/state.tsx';
import { StripPart } from '../parts/strip.tsx';
import { PickStart, WindowsChoice } from '../parts/windows-choice.tsx';
import { WindowsTable } from '../parts/windows-table.tsx';
import { PlanDocument } from './document.tsx';
import type { Around } from './frame.tsx';

export function WindowsDocument({ page, around }: { page: WindowsPage; around: Around }): JSX.Element {
  return (
    <PlanDocument page={page} title="Windows" around={around} current="windows">
      <WindowsMain page={page} />
    </PlanDocument>
  );
}

/** The part that changes: all of the page but its head. */
export function WindowsMain({ page }: { page: WindowsPage }): JSX.Element {
  if (page.kind === 'no-jobs') return <NoJobs />;
  if (page.kind !== 'windows') return <StateMain page={page} />;
  return (
    <main id="passage" class="windows-page">
      <p class="passage-name">{page.name}</p>
      <div class="side">
        {page.look !== null && <StartCardPart card={page.look} />}
        <Answer page={page} />
      </div>
      <div class="wide">
        {page.hours !== null && <StripPart strip={page.hours.strip} />}
        <WindowsTable rows={page.rows} hasParts={page.hasParts} />
      </div>
    </main>
  );
}

function Answer({ page }: { page: JobPage }): JSX.Element {
  return (
    <section class="next" aria-labelledby="windows-what">
      <WindowsChoice choice={page.choice} />
      <h1 class="what" id="windows-what">
        {page.jobName}
      </h1>
      <p class="between">{page.shown}</p>
      {page.sentences.map((sentence) => (
        <Said key={sentence.text} sentence={sentence} />
      ))}
      {page.hours !== null && <PickStart pick={page.hours.pick} />}
      {page.limits.length > 0 && (
        <details class="own-limits">
          <summary>Limits it must stay inside</summary>
          <Facts facts={page.limits} />
        </details>
      )}
    </section>
  );
}

function Said({ sentence: { text, link } }: { sentence: Sentence }): JSX.Element {
  return (
    <p class="said">
      {text}
      {link !== undefined && (
        <>
          {' '}
          <a href={link.href} hx-get={link.href} hx-target="#passage" hx-swap="outerHTML" hx-push-url="true">
            {link.text}
          </a>
        </>
      )}
    </p>
  );
}

function NoJobs(): JSX.Element {
  return (
    <main id="passage" class="alone">
      <section class="state" aria-labelledby="state-title">
        <h1 class="what" id="state-title">
          No jobs, no windows
        </h1>
        <p>This passage has no jobs. Add them to the passage file under “jobs”, and their windows are found here.</p>
      </section>
    </main>
  );
}
