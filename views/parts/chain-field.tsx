import type { JSX } from 'preact';
import type { ChainTick, ChainTicks } from '../../server/presenters/new-chains.ts';
import { JobField } from './job-field.tsx';

/** Chains of jobs to tick, each with the list of what comes with it. */
export const ChainField = ({ ticks }: { ticks: ChainTicks }): JSX.Element => (
  <fieldset
    class={`field many chains${ticks.problems.length > 0 ? ' wrong' : ''}`}
    aria-describedby={`${ticks.id}-said`}
  >
    <legend>Chains of jobs that belong together</legend>
    <div id={ticks.id} tabIndex={-1}>
      <input type="hidden" name={ticks.name} value="" />
      {ticks.chains.map((chain) => (
        <Chain key={chain.value} chain={chain} name={ticks.name} />
      ))}
    </div>
    <div id={`${ticks.id}-said`} class="said-of-field">
      {ticks.problems.map(({ code, what, expected, remedy }) => (
        <p key={`${code} ${what}`} class="field-problem">
          <b>{what}</b> Expected: {expected}. {remedy}
        </p>
      ))}
      <p>{ticks.hint}</p>
    </div>
  </fieldset>
);

const Chain = ({ chain, name }: { chain: ChainTick; name: string }): JSX.Element => (
  <div class="chain">
    <label class="tick">
      <input type="checkbox" name={name} value={chain.value} checked={chain.isTicked} />
      <span>
        <b>{chain.title}.</b> {chain.what}
      </span>
    </label>
    <details class="library-group chain-links" open={chain.isTicked}>
      <summary>{chain.countText}</summary>
      <p>{chain.always}</p>
      {chain.links !== null && <JobField group={chain.links} />}
    </details>
  </div>
);
