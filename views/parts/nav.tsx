import type { JSX } from 'preact';

export type PageName = 'passage' | 'jobs' | 'damage' | 'locker' | 'windows' | 'plan';

const pages = [
  ['passage', '/', 'Passage'],
  ['jobs', '/jobs', 'Jobs'],
  ['damage', '/damage', 'Damage'],
  ['locker', '/locker', 'Locker'],
  ['windows', '/windows', 'Windows'],
  ['plan', '/plan', 'Plan'],
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
