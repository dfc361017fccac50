import type { JSX } from 'preact';
import type { JobPage } from '../../server/presenters/job-page.ts';
import { JobOwn } from './job-own.tsx';
import { JobReadiness } from './job-readiness.tsx';
import { JobSteps } from './job-steps.tsx';
import { LinkList } from './job-list.tsx';
import { Facts } from './next-card.tsx';
import { VersionField } from './version-field.tsx';

/** One job whole: what the plan says, what is needed, what is one's own, and step by step how it is done. */
export function JobMain({ page }: { page: JobPage }): JSX.Element {
  return (
    <main id="passage" class="job-page">
      <p class="passage-name">
        <a href="/jobs">Jobs</a>, {page.name}
      </p>
      <section class="next" aria-labelledby="job-title">
        <h1 class="what" id="job-title">
          {page.title}
        </h1>
        <p class="between">{page.origin}</p>
        <PlanLine page={page} />
        <Facts facts={page.facts} />
        <h2>Comes after</h2>
        <LinkList links={page.after} none="no other job" />
        <h2>These come after it</h2>
        <LinkList links={page.before} none="no other job" />
        <Buttons page={page} />
      </section>
      <div class="job-wide">
        <JobReadiness readiness={page.readiness} />
        <JobOwn page={page} />
        <JobSteps steps={page.steps} />
        {page.words.map(({ title, lines }) => (
          <section key={title} class="job-words">
            <h2>{title}</h2>
            <ul class="plain">
              {lines.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          </section>
        ))}
        {page.works.length > 0 && (
          <section class="job-words works">
            <h2>Where figures come from</h2>
            <ul class="plain">
              {page.works.map((work) => (
                <li key={work}>{work}</li>
              ))}
            </ul>
          </section>
        )}
      </div>
    </main>
  );
}

function PlanLine({ page: { plan, windowsHref, sheetHref } }: { page: JobPage }): JSX.Element {
  if (plan.when === '') return <p class="job-plan">Plan: {plan.more}.</p>;
  return (
    <p class="job-plan">
      <b>Plan: {plan.when}</b>
      {plan.more === '' ? '.' : `, ${plan.more.replace(/\.$/, '')}.`} <a href={windowsHref}>Its windows</a>{' '}
      <a href={sheetHref}>Deck sheet</a>
    </p>
  );
}

function Buttons({ page }: { page: JobPage }): JSX.Element {
  const href = `/jobs/${page.jobId}`;
  return (
    <div class="job-buttons">
      <a class="button main-button" href={`${href}/edit`}>
        Edit this job
      </a>
      <a class="button" href={`${href}/hours`}>
        Its hours
      </a>
      <form method="post" action={`${href}/copy`}>
        <VersionField version={page.version} />
        <button>Copy it</button>
      </form>
      <form method="post" action={`${href}/remove`}>
        <VersionField version={page.version} />
        <button>Take it out</button>
        {page.removalAsked.length > 0 && (
          <div class="second-question">
            <p>
              {page.removalAsked.join(', ')} {page.removalAsked.length === 1 ? 'comes' : 'come'} after it. Taken out of
              their order too, they come after what it came after.
            </p>
            <button name="others" value="too">
              Take it out, and out of their order
            </button>
          </div>
        )}
      </form>
    </div>
  );
}
