import type { JSX } from 'preact';
import type { DamagePage, DamagePages } from '../../server/presenters/damage-page.ts';
import { DamagedSail } from '../parts/damaged-sail.tsx';
import { EntryFormMain } from '../parts/entry-form.tsx';
import { PlanDocument } from './document.tsx';
import type { Around } from './frame.tsx';

export function DamageDocument({ page, around }: { page: DamagePages; around: Around }): JSX.Element {
  const title = page.kind === 'entry' ? `Damage: ${page.title}` : 'Damage';
  return (
    <PlanDocument page={page} title={title} around={around} current="damage">
      <DamageMain page={page} />
    </PlanDocument>
  );
}

/** The part that changes: all of the page but its head. */
export const DamageMain = ({ page }: { page: DamagePages }): JSX.Element =>
  page.kind === 'entry' ? <EntryFormMain page={page} /> : <Sails page={page} />;

function Sails({ page }: { page: DamagePage }): JSX.Element {
  return (
    <main id="passage" class="damage-page">
      <p class="passage-name">{page.name}</p>
      <h1 class="what">Damage</h1>
      <p>{page.summary}</p>
      {page.sails.map((sail) => (
        <DamagedSail key={sail.index} sail={sail} version={page.version} />
      ))}
      <p class="sail-buttons">
        <a class="button" href="/damage/new">
          {page.sails.length === 0 ? 'Describe a sail' : 'Describe another sail'}
        </a>
      </p>
    </main>
  );
}
