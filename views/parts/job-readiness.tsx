import type { JSX } from 'preact';
import type { ReadinessView } from '../../server/presenters/job-readiness.ts';

/** Whether all it needs is on board, what is missing, and what can be done about it. */
export function JobReadiness({ readiness }: { readiness: ReadinessView }): JSX.Element {
  return (
    <section class={`readiness is-${readiness.status}`} aria-labelledby="readiness-title">
      <h2 id="readiness-title">
        Readiness: <b class="job-state">{readiness.words}</b>
      </h2>
      {readiness.findings.length === 0 ? (
        <p>{readiness.status === 'done' ? 'Nothing is left to do.' : 'All it needs is on board, reserves kept.'}</p>
      ) : (
        <ul class="findings">
          {readiness.findings.map(({ text, remedies, effect }) => (
            <li key={text} class={effect}>
              <p>{text}</p>
              {remedies.length > 0 && (
                <ul class="plain">
                  {remedies.map((remedy) => (
                    <li key={remedy}>{remedy}</li>
                  ))}
                </ul>
              )}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
