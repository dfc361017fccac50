import type { JSX } from 'preact';
import type { Changes } from '../../server/presenters/plan-changes.ts';

/** What is no longer as in the plan before. */
export function ChangesPart({ changes }: { changes: Changes }): JSX.Element {
  return (
    <section class="changes" id="changes" aria-labelledby="changes-title">
      <h2 id="changes-title">What changed since {changes.since}</h2>
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
    </section>
  );
}
