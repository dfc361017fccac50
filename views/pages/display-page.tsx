import type { JSX } from 'preact';
import type { DisplayGroup, DisplayPage } from '../../server/presenters/display-page.ts';
import { type Around, Frame } from './frame.tsx';

export function DisplayDocument({ page, around }: { page: DisplayPage; around: Around }): JSX.Element {
  return (
    <Frame title="Display – Slatch" around={around} clock={null} current={null}>
      <DisplayMain page={page} />
    </Frame>
  );
}

/** The part of the page that fits where the passage stands. */
export function DisplayMain({ page }: { page: DisplayPage }): JSX.Element {
  return (
    <main id="passage" class="alone display-page">
      <h1 class="what">Display</h1>
      <p>What this browser shows, on every page. Other browsers keep their own.</p>
      <form method="post" action="/display">
        <input type="hidden" name="back" value={page.backHref} />
        <div class="display-groups">
          {page.groups.map((group) => (
            <Group key={group.name} group={group} />
          ))}
        </div>
        <p class="display-act">
          <button class="main-button">Show it so</button>
          <a class="button" href={page.backHref}>
            Leave it as it is
          </a>
        </p>
      </form>
      <ul class="display-hints">
        {page.hints.map((hint) => (
          <li key={hint}>{hint}</li>
        ))}
      </ul>
    </main>
  );
}

function Group({ group }: { group: DisplayGroup }): JSX.Element {
  return (
    <fieldset>
      <legend>{group.legend}</legend>
      {group.options.map(({ value, text, hint, isChosen }) => (
        <label key={value}>
          <input type="radio" name={group.name} value={value} checked={isChosen} />
          <span>
            {text} <small>{hint}</small>
          </span>
        </label>
      ))}
    </fieldset>
  );
}
