import type { JSX } from 'preact';
import type { AccessPage } from '../../server/presenters/access-page.ts';
import { type Around, Frame } from './frame.tsx';

export function AccessDocument({ page, around }: { page: AccessPage; around: Around }): JSX.Element {
  return (
    <Frame title={`${page.title} – Slatch`} around={around} clock={null} current={null}>
      <AccessMain page={page} />
    </Frame>
  );
}

/** The part of the page that fits where the passage stands. */
export function AccessMain({ page }: { page: AccessPage }): JSX.Element {
  return (
    <main id="passage" class="alone access-page">
      <h1 class="what">{page.title}</h1>
      {page.texts.map((text) => (
        <p key={text}>{text}</p>
      ))}
      {page.kind === 'ask' && <KeyForm page={page} />}
      {page.kind === 'not-sent' && (
        <p>
          <a class="as-button" href={`/key?to=${encodeURIComponent(page.toHref)}`} target="_blank" rel="noopener">
            Give the key
          </a>
        </p>
      )}
      {page.kind === 'in' && (
        <form method="post" action="/key/leave">
          <button class="main-button">Sign out</button>
        </form>
      )}
      {(page.kind === 'in' || page.kind === 'none') && (
        <p>
          <a href="/">To the passage</a>
        </p>
      )}
    </main>
  );
}

/** Its letters are seen as they are typed: twenty of them are not typed blindly in a seaway. */
function KeyForm({ page: { toHref, wrong } }: { page: AccessPage }): JSX.Element {
  return (
    <form method="post" action="/key">
      <input type="hidden" name="to" value={toHref} />
      {wrong !== '' && (
        <p class="access-wrong" id="key-wrong" role="alert">
          {wrong}
        </p>
      )}
      <label>
        <span>The key</span>
        <input
          type="text"
          name="key"
          required
          autofocus
          maxlength={200}
          autocomplete="current-password"
          autocapitalize="none"
          autocorrect="off"
          spellcheck={false}
          aria-describedby={wrong === '' ? undefined : 'key-wrong'}
          aria-invalid={wrong === '' ? undefined : true}
        />
      </label>
      <button class="main-button">Open</button>
    </form>
  );
}
