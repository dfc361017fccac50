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
      <ProblemList problems={problems} />
    </section>
  );
}

/** Over a plan that could not be made again: that it is the old one, and why. */
export function NotRenewed({ problems }: { problems: readonly Problem[] }): JSX.Element | null {
  if (problems.length === 0) return null;
  return (
    <section class="not-renewed" role="status" aria-labelledby="not-renewed-title">
      <h2 id="not-renewed-title">The plan could not be made again: this is the one that stood before</h2>
      <ProblemList problems={problems} />
    </section>
  );
}

/** Each problem with where it is, what was expected and what to do. */
export const ProblemList = ({ problems }: { problems: readonly Problem[] }): JSX.Element => (
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
);
