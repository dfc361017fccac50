import type { JSX } from 'preact';
import type { LogJobs, LogJobView } from '../../server/presenters/log-jobs.ts';
import { VersionField } from './version-field.tsx';

interface Forms {
  readonly version: string;
  readonly formToken: string;
}

/** Jobs under way and next, with a button for what becomes of each now; what is done. */
export function LogJobsPart({ jobs, ...forms }: { jobs: LogJobs } & Forms): JSX.Element {
  return (
    <section class="log-jobs" aria-labelledby="log-jobs-title">
      <h2 id="log-jobs-title">Jobs, now</h2>
      {jobs.near.length === 0 ? (
        <p>No job is under way, and none is planned.</p>
      ) : (
        <LogJobList jobs={jobs.near} {...forms} />
      )}
      {jobs.others.length > 0 && (
        <details>
          <summary>Other jobs ({jobs.others.length})</summary>
          <LogJobList jobs={jobs.others} {...forms} />
        </details>
      )}
      {jobs.done.length > 0 && <p class="log-done">Done: {jobs.done.join(', ')}.</p>}
    </section>
  );
}

export const LogJobList = ({ jobs, ...forms }: { jobs: readonly LogJobView[] } & Forms): JSX.Element => (
  <ul class="log-job-list">
    {jobs.map((job) => (
      <li key={job.id}>
        <p>
          <b>{job.name}</b> <span class="log-state">{job.state}</span>
        </p>
        <Taps job={job} {...forms} />
      </li>
    ))}
  </ul>
);

function Taps({ job, version, formToken }: { job: LogJobView } & Forms): JSX.Element {
  return (
    <form method="post" action="/log/tap" class="log-taps">
      <VersionField version={version} />
      <input type="hidden" name="token" value={formToken} />
      <input type="hidden" name="job" value={job.id} />
      {job.taps.map(({ event, text }) => (
        <button key={event} name="event" value={event} aria-label={`${job.name}: ${text} now`}>
          {text}
        </button>
      ))}
      <a class="button" href={job.formHref} aria-label={`${job.name}: with time and minutes`}>
        With time …
      </a>
    </form>
  );
}
