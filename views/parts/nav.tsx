import type { JSX } from 'preact';

export type PageName = 'passage' | 'jobs' | 'damage' | 'locker' | 'windows' | 'plan' | 'log' | 'forecast' | 'messages';

const pages = [
  ['passage', '/', 'Passage'],
  ['jobs', '/jobs', 'Jobs'],
  ['damage', '/damage', 'Damage'],
  ['locker', '/locker', 'Locker'],
  ['windows', '/windows', 'Windows'],
  ['plan', '/plan', 'Plan'],
  ['forecast', '/forecast', 'Forecast'],
  ['log', '/log', 'Log'],
  ['messages', '/messages', 'Messages'],
] as const;

/** The pages there are; that shown is marked. `current` null: none of them. */
export function Nav({ current }: { current: PageName | null }): JSX.Element {
  return (
    <nav aria-label="Pages">
      {pages.map(([name, href, text]) => (
        <a key={name} href={href} aria-current={name === current ? 'page' : undefined}>
          {text}
        </a>
      ))}
    </nav>
  );
}

interface FoldedProps {
  readonly current: PageName | null;
  /** The reader gave an access key, and can leave. */
  readonly isSignedIn: boolean;
}

/** The same behind one press, where there is no room for all of them. */
export function FoldedNav({ current, isSignedIn }: FoldedProps): JSX.Element {
  return (
    <details class="folded-pages">
      <summary>Pages</summary>
      <div>
        <Nav current={current} />
        <a href="/display">Units and display</a>
        {isSignedIn && <a href="/key">Sign out</a>}
      </div>
    </details>
  );
}
