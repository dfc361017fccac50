import type { JSX } from 'preact';
import type { TrialStart } from '../../server/presenters/trial-start.ts';

interface TrialStartProps {
  readonly start: TrialStart;
  readonly button: string;
}

/** One button that tries a start in the plan. */
export const TrialStartForm = ({ start, button }: TrialStartProps): JSX.Element => (
  <form class="try" method="post" action={start.action}>
    {start.fields.map(([name, value]) => (
      <input key={name} type="hidden" name={name} value={value} />
    ))}
    <button>{button}</button>
  </form>
);
