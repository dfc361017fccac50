import type { ComponentChildren, JSX } from 'preact';
import type { Clock } from '../../server/presenters/clock.ts';
import type { KeptLine, Notice } from '../../server/presenters/notices.ts';
import { FoldedNav, Nav, type PageName } from '../parts/nav.tsx';
import { KeptLinePart, Notices } from '../parts/notices.tsx';

export type Style = 'day' | 'night';

/** Addresses of what every page is shown with. */
export interface PageFiles {
  /** All of `style-sheets.ts`. */
  readonly styles: string;
  readonly script: string;
  /** Changes between day and night without a new page. */
  readonly nightScript: string;
  /** Reads the hours of a strip. */
  readonly hoursScript: string;
}

const UNVERSIONED: PageFiles = {
  styles: '/static/slatch.css',
  script: '/static/htmx.min.js',
  nightScript: '/static/night-button.js',
  hoursScript: '/static/hour-reading.js',
};

/** What stands around every page, whatever it shows. */
export interface Around {
  /** Absent: addresses without a version, which browsers ask about each time. */
  readonly files?: PageFiles;
  readonly style: Style;
  /** Where a key is asked for: whether the reader has given it. Absent or null: none is asked for. */
  readonly door?: 'closed' | 'open' | null;
  readonly notices?: readonly Notice[];
  readonly kept?: KeptLine | null;
}

interface FrameProps {
  readonly title: string;
  readonly around: Around;
  readonly clock: Clock | null;
  /** null: none of the pages there are. */
  readonly current: PageName | null;
  /** Asked for again after so many seconds by browsers without script. */
  readonly refreshS?: number;
  readonly children: ComponentChildren;
}

/** The document around every page. */
export function Frame({ title, around, clock, current, refreshS, children }: FrameProps): JSX.Element {
  const { style, door, notices = [], kept = null, files = UNVERSIONED } = around;
  const isClosed = door === 'closed';
  return (
    <html lang="en" class={style}>
      <head>
        <meta charset="utf-8" />
        <title>{title}</title>
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content={style === 'night' ? 'dark' : 'light'} />
        <meta name="htmx-config" content='{"includeIndicatorCSS":false}' />
        {refreshS !== undefined && (
          <noscript>
            <meta http-equiv="refresh" content={String(refreshS)} />
          </noscript>
        )}
        <link rel="icon" href="/static/icon.svg" type="image/svg+xml" />
        <link rel="stylesheet" href={files.styles} />
        {!isClosed && <script src={files.script} defer />}
        {!isClosed && <script src={files.nightScript} defer />}
        {!isClosed && <script src={files.hoursScript} defer />}
      </head>
      <body>
        <a class="skip" href="#passage">
          {isClosed ? 'Skip to the page' : 'Skip to the plan'}
        </a>
        <header>
          <p class="mark">Slatch</p>
          {!isClosed && <Nav current={current} />}
          {clock !== null && <ClockPart clock={clock} />}
          {!isClosed && <FoldedNav current={current} isSignedIn={door === 'open'} />}
          <StyleButton style={style} />
          {!isClosed && <HeaderLinks isSignedIn={door === 'open'} />}
        </header>
        <Notices notices={notices} />
        {children}
        {kept !== null && <KeptLinePart kept={kept} />}
      </body>
    </html>
  );
}

/** What is seldom needed; on the phone it is folded with the pages. */
function HeaderLinks({ isSignedIn }: { isSignedIn: boolean }): JSX.Element {
  return (
    <>
      <a class="to-display" href="/display">
        Units
      </a>
      {isSignedIn && (
        <a class="to-display" href="/key">
          Sign out
        </a>
      )}
    </>
  );
}

/** Ship's time over UTC, each with its weekday. */
function ClockPart({ clock }: { clock: Clock }): JSX.Element {
  return (
    <p class="clock">
      <span class="ship">
        <b>{clock.ship}</b> ship{' '}
        <small>
          {clock.offset}
          {clock.note !== '' && `, ${clock.note}`}
        </small>
      </span>{' '}
      <span class="utc">{clock.utc}</span>
    </p>
  );
}

/** The other display at one press; everything else about the display is a page of its own. */
function StyleButton({ style }: { style: Style }): JSX.Element {
  const other = style === 'night' ? 'day' : 'night';
  return (
    <form class="style" method="post" action="/style">
      <button name="style" value={other}>
        {other === 'night' ? 'Night' : 'Day'}
        <span class="spare"> display</span>
      </button>
    </form>
  );
}
