import type { JSX } from 'preact';
import type { PlanNotes } from '../../server/presenters/plan-notes.ts';
import { Facts } from './next-card.tsx';

/** The plan as a whole, what it was made from, and what it is not. */
export function PlanNotesPart({ notes }: { notes: PlanNotes }): JSX.Element {
  return (
    <section class="notes" aria-label="About this plan">
      <div>
        {notes.whole.length > 0 && <h2>The plan as a whole</h2>}
        <Facts facts={notes.whole} />
        <div class="made-from">
          <h2>Made from</h2>
          {notes.forecast.map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
          {notes.defaults !== '' && (
            <p>
              <span class="default">Default</span> {notes.defaults}.
            </p>
          )}
        </div>
      </div>
      <div>
        <h2 id="relied-title">Before you rely on it</h2>
        <ul>
          {notes.cautions.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      </div>
    </section>
  );
}
