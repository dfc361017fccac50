import type { ComponentChildren, JSX } from 'preact';
import type { Clock } from '../../server/presenters/clock.ts';
import type { KeptLine, Notice } from '../../server/presenters/notices.ts';
import { Nav, type PageName } from '../parts/nav.tsx';
import { KeptLinePart, Notices } from '../parts/notices.tsx';

export type Style = 'day' | 'night';

/** What stands around every page, whatever it shows. */
export interface Around {
  readonly style: Style;
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
  const { style, notices = [], kept = null } = around;
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
        <link rel="stylesheet" href="/static/tokens.css" />
        <link rel="stylesheet" href="/static/page.css" />
        <link rel="stylesheet" href="/static/strip.css" />
        <link rel="stylesheet" href="/static/windows.css" />
        <link rel="stylesheet" href="/static/plan.css" />
        <link rel="stylesheet" href="/static/watchkeeper.css" />
        <link rel="stylesheet" href="/static/document.css" />
        <link rel="stylesheet" href="/static/sail.css" />
        <link rel="stylesheet" href="/static/damage.css" />
        <link rel="stylesheet" href="/static/locker.css" />
        <link rel="stylesheet" href="/static/jobs.css" />
        <link rel="stylesheet" href="/static/hours.css" />
        <link rel="stylesheet" href="/static/log.css" />
        <link rel="stylesheet" href="/static/plans.css" />
        <link rel="stylesheet" href="/static/forecast.css" />
        <link rel="stylesheet" href="/static/messages.css" />
        <link rel="stylesheet" href="/static/new.css" />
        <link rel="stylesheet" href="/static/map.css" />
        <link rel="stylesheet" href="/static/passage-edit.css" />
        <link rel="stylesheet" href="/static/sheet.css" />
        <link rel="stylesheet" href="/static/print.css" media="print" />
        <script src="/static/htmx.min.js" defer />
      </head>
      <body>
        <a class="skip" href="#passage">
          Skip to the plan
        </a>
        <header>
          <p class="mark">Slatch</p>
          <Nav current={current} />
          {clock !== null && <ClockPart clock={clock} />}
          <StyleButton style={style} />
        </header>
        <Notices notices={notices} />
        {children}
        {kept !== null && <KeptLinePart kept={kept} />}
      </body>
    </html>
  );
}

function ClockPart({ clock }: { clock: Clock }): JSX.Element {
  return (
    <p class="clock">
      <b>{clock.ship}</b> ship <small>{clock.offset}</small> <span class="utc">{clock.utc}</span>
      {clock.note !== '' && <small class="held"> {clock.note}</small>}
    </p>
  );
}

function StyleButton({ style }: { style: Style }): JSX.Element {
  const other = style === 'night' ? 'day' : 'night';
  return (
    <form class="style" method="post" action="/style">
      <button name="style" value={other}>
        {other === 'night' ? 'Night display' : 'Day display'}
      </button>
    </form>
  );
}
