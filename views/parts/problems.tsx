import type { JSX } from 'preact';
import type { Problem } from '../../lib/result/index.ts';

/** Everything found wrong with an input, each with what to do. */
export function Problems({ problems }: { problems: readonly Problem[] }): JSX.Element {
  return (
    <section class="state" aria-labelledby="state-title">
      <h1 class="what" id="state-title">
        No plan yet
      </h1>
      <p>{problems.length === 1 ? 'One thing has' : `${problems.length} things have`} to be put right first.</p>
      <ol class="problems">
        {problems.map((problem) => (
          <li key={`${problem.code} ${problem.where}`}>
            <p class="problem-what">{problem.what}</p>
            <dl class="facts">
              <div>
                <dt>Where</dt>
                <dd>{problem.where}</dd>
              </div>
              <div>
                <dt>Expected</dt>
                <dd>{problem.expected}</dd>
              </div>
              <div>
                <dt>What to do</dt>
                <dd>{problem.remedy}</dd>
              </div>
            </dl>
          </li>
        ))}
      </ol>
    </section>
  );
}
