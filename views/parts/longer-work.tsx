import type { JSX } from 'preact';
import type { LongerWork } from '../../server/presenters/watch-longer.ts';

/** Why work takes longer than its time at pace 1: one line each, the factors folded below it. */
export function LongerWorkPart({ longer, hint }: { longer: readonly LongerWork[]; hint: string }): JSX.Element {
  return (
    <div class="watch-part longer">
      <h2>Why work takes longer</h2>
      {longer.length === 0 ? <p>No planned work takes longer than its time at pace 1.</p> : <p>{hint}</p>}
      {longer.map((work) => (
        <details key={work.key}>
          <summary>
            <b>{work.what}</b>, {work.when}: {work.together}
          </summary>
          <ul class="factors">
            {work.factors.map((factor) => (
              <li key={factor.id}>
                {factor.name} <b>{factor.times}</b> <small class="basis">{factor.basis}</small>
                <small class="from">{factor.from}</small>
              </li>
            ))}
          </ul>
          <p>{work.product}</p>
        </details>
      ))}
    </div>
  );
}
