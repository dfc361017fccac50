import type { JSX } from 'preact';
import type { LogInPlan } from '../../server/presenters/log-page.ts';

/** What the plan took from the log: the forecast against it, own pace, and what else. */
export function LogToldPart({ told }: { told: LogInPlan }): JSX.Element {
  return (
    <section class="log-told" aria-labelledby="log-told-title">
      <h2 id="log-told-title">What {told.planName} took from it</h2>
      <Part title="Forecast against the log" lines={told.match} />
      <Part title="Your pace" lines={told.pace} />
      <Part title="Where things stand" lines={told.notes} isList />
    </section>
  );
}

interface PartProps {
  readonly title: string;
  /** The first says it, the others how it was found; unless all of them are alike. */
  readonly lines: readonly string[];
  readonly isList?: boolean;
}

function Part({ title, lines, isList = false }: PartProps): JSX.Element | null {
  if (lines.length === 0) return null;
  const [first, ...others] = lines;
  const rest = isList ? lines : others;
  return (
    <div class="log-told-part">
      <h3>{title}</h3>
      {!isList && <p>{first}</p>}
      {rest.length > 0 && (
        <ul class="plain">
          {rest.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
    </div>
  );
}
