import type { JSX } from 'preact';
import type { CountView } from '../../server/presenters/message-count.ts';
import { Length } from './message-content.tsx';

/** How much the message would fill; it is replaced while the form is filled in. */
export const CountPart = ({ count }: { count: CountView | null }): JSX.Element => (
  <div id="message-count" class="message-count" role="status">
    {count !== null && (
      <>
        <p>{count.sentence}</p>
        {count.parts.map(({ label, length, filledShare }) => (
          <Length key={label} label={label} length={length} filledShare={filledShare} />
        ))}
        {count.problems.map(({ what, expected, remedy }) => (
          <p key={what} class="message-hint">
            {what} Expected: {expected}. {remedy}
          </p>
        ))}
      </>
    )}
  </div>
);
