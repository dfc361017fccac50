import type { JSX } from 'preact';
import type { SailView, TearView } from '../../server/presenters/damage-page.ts';
import { LinkList } from './job-list.tsx';
import { SailPicturePart } from './sail-picture.tsx';
import { VersionField } from './version-field.tsx';

/** A sail: first what to do before mending, then its drawing, its tears with what each asks for, and what was taken. */
export function DamagedSail({ sail, version }: { sail: SailView; version: string }): JSX.Element {
  const id = `sail-${sail.index}`;
  return (
    <section class="sail" id={id} aria-labelledby={`${id}-title`}>
      <div class="sail-head">
        <h2 id={`${id}-title`}>{sail.title}</h2>
        <p class="subtitle">{sail.text}</p>
        {sail.first.length > 0 && (
          <div class="first-answer">
            <h3>Before anything is mended</h3>
            <ul class="plain">
              {sail.first.map((text) => (
                <li key={text}>{text}</li>
              ))}
            </ul>
          </div>
        )}
      </div>
      <SailPicturePart picture={sail.picture} idPrefix={`${id}-drawing`} />
      <div class="sail-words">
        {sail.tears.length === 0 && <p>Nothing is marked as torn.</p>}
        {sail.tears.map((tear) => (
          <Tear key={tear.index} tear={tear} sailIndex={sail.index} version={version} />
        ))}
        <p class="sail-buttons">
          <a class="button" href={`/damage/${sail.index}/tears/new`}>
            {sail.tears.length === 0 ? 'Mark a tear' : 'Mark another tear'}
          </a>
          <a class="button" href={`/damage/${sail.index}`} aria-label={`Edit the sail: ${sail.title}`}>
            Edit the sail
          </a>
        </p>
        {sail.taken.length > 0 && <Taken sail={sail} />}
      </div>
    </section>
  );
}

const Taken = ({ sail }: { sail: SailView }): JSX.Element => (
  <div class="sail-taken">
    <h3>Not given, so taken</h3>
    <dl class="facts">
      {sail.taken.map(({ what, value }) => (
        <div key={what}>
          <dt>{what}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  </div>
);

function Tear({ tear, sailIndex, version }: { tear: TearView; sailIndex: number; version: string }): JSX.Element {
  const href = `/damage/${sailIndex}/tears/${tear.index}`;
  const id = `sail-${sailIndex}-tear-${tear.index}`;
  return (
    <article class="tear" id={id} aria-labelledby={`${id}-title`}>
      <h3 id={`${id}-title`}>{tear.title}</h3>
      {tear.findings.map((text) => (
        <p key={text}>{text}</p>
      ))}
      <h4>Sewing and patch</h4>
      <p>{tear.sewing}</p>
      <form method="post" action={`${href}/jobs`}>
        <VersionField version={version} />
        <h4>Make jobs of it</h4>
        {tear.jobs.map((text) => (
          <p key={text}>{text}</p>
        ))}
        {tear.there.length > 0 && (
          <div class="sewn-already">
            <p>Sewing that is among the jobs already:</p>
            <LinkList links={tear.there} none="" />
          </div>
        )}
        <div class="sail-buttons">
          <button class="main-button" name="where" value="deck" aria-label={`Sew on deck: ${tear.title}`}>
            Sew on deck
          </button>
          <button name="where" value="below" aria-label={`Sew below: ${tear.title}`}>
            Sew below
          </button>
          <a class="button" href={href} aria-label={`Edit the tear: ${tear.title}`}>
            Edit the tear
          </a>
        </div>
      </form>
    </article>
  );
}
