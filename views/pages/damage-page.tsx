import type { JSX } from 'preact';
import type { DamagePage, DamagePages, SailView, TearView } from '../../server/presenters/damage-page.ts';
import { SailDrawing } from '../charts/sail-drawing.tsx';
import { sailLayout } from '../charts/sail-layout.ts';
import { EntryFormMain } from '../parts/entry-form.tsx';
import { ProblemList } from '../parts/problems.tsx';
import { VersionField } from '../parts/version-field.tsx';
import { PlanDocument } from './document.tsx';
import type { Around } from './frame.tsx';

export function DamageDocument({ page, around }: { page: DamagePages; around: Around }): JSX.Element {
  return (
    <PlanDocument page={page} title="Damage" around={around} current="damage">
      <DamageMain page={page} />
    </PlanDocument>
  );
}

/** The part that changes: all of the page but its head. */
export function DamageMain({ page }: { page: DamagePages }): JSX.Element {
  if (page.kind === 'entry') return <EntryFormMain page={page} />;
  if (page.kind === 'damage') return <Sails page={page} />;
  return (
    <main id="passage" class="alone">
      <h1 class="what">No passage, no sails</h1>
      <ProblemList problems={page.problems} />
    </main>
  );
}

function Sails({ page }: { page: DamagePage }): JSX.Element {
  return (
    <main id="passage" class="damage-page">
      <p class="passage-name">{page.name}</p>
      <h1 class="what">Damage</h1>
      <p>
        {page.sails.length === 0
          ? 'No sail is described yet. Count its panels, battens and reefs, then say in which panel the tear is.'
          : 'Found by counting panels. Shapes are approximate: look before you rely on a place.'}
      </p>
      {page.sails.map((sail) => (
        <Sail key={sail.index} sail={sail} version={page.version} />
      ))}
      <p>
        <a class="button" href="/damage/new">
          Describe a sail
        </a>
      </p>
    </main>
  );
}

function Sail({ sail, version }: { sail: SailView; version: string }): JSX.Element {
  return (
    <section class="sail" id={`sail-${sail.index}`} aria-labelledby={`sail-${sail.index}-title`}>
      <h2 id={`sail-${sail.index}-title`}>{sail.title}</h2>
      <div class="sail-words">
        {sail.tears.length === 0 && <p>Nothing is marked as torn.</p>}
        {sail.tears.map((tear) => (
          <Tear key={tear.index} tear={tear} sailIndex={sail.index} version={version} />
        ))}
        {sail.others.map((text) => (
          <p key={text}>{text}</p>
        ))}
        <p class="sail-buttons">
          <a class="button" href={`/damage/${sail.index}/tears/new`}>
            Mark a tear
          </a>
          <a class="button" href={`/damage/${sail.index}`}>
            Edit the sail
          </a>
        </p>
      </div>
      <SailDrawing
        layout={sailLayout(sail.report)}
        idPrefix={`sail-${sail.index}`}
        title={`Drawing: ${sail.title}`}
        description={sail.description}
      />
    </section>
  );
}

function Tear({ tear, sailIndex, version }: { tear: TearView; sailIndex: number; version: string }): JSX.Element {
  const href = `/damage/${sailIndex}/tears/${tear.index}`;
  return (
    <article class="tear">
      <h3>{tear.title}</h3>
      {tear.texts.map((text) => (
        <p key={text}>{text}</p>
      ))}
      <form method="post" action={`${href}/jobs`} class="sail-buttons">
        <VersionField version={version} />
        <button class="main-button" name="where" value="deck">
          Make jobs of it: sew on deck
        </button>
        <button name="where" value="below">
          Sew below
        </button>
        <a class="button" href={href}>
          Edit the tear
        </a>
      </form>
    </article>
  );
}
