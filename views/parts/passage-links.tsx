import type { JSX } from 'preact';

const PARTS = [
  ['/passage/start', 'Start'],
  ['/passage/track', 'Track'],
  ['/passage/boat', 'Boat'],
  ['/passage/watchkeeper', 'Watchkeeper'],
  ['/passage/settings', 'Settings'],
] as const;

/** Ways to what may be changed of a passage besides jobs, locker, sails and forecasts. */
export const PassageLinks = (): JSX.Element => (
  <nav class="passage-links" aria-label="Change the passage">
    <p class="label">Change</p>
    <ul class="plain">
      {PARTS.map(([href, text]) => (
        <li key={href}>
          <a href={href}>{text}</a>
        </li>
      ))}
    </ul>
  </nav>
);
