import type { ComponentChildren, JSX } from 'preact';
import type { SheetPage } from '../../server/presenters/sheet-page.ts';
import { PlanDocument } from './document.tsx';
import type { Around } from './frame.tsx';
import { SheetNumbers, SheetParts, SheetSteps } from '../parts/sheet-tables.tsx';

type Sheet = SheetPage['sheet'];

export function SheetDocument({ page, around }: { page: SheetPage; around: Around }): JSX.Element {
  return (
    <PlanDocument page={page} title={`Deck sheet: ${page.sheet.title}`} around={around} current="jobs">
      <SheetMain page={page} />
    </PlanDocument>
  );
}

/** One A4 page in print; the ten parts in their order, in two columns where there is room. */
export function SheetMain({ page }: { page: SheetPage }): JSX.Element {
  const { sheet } = page;
  return (
    <main id="passage" class="sheet-page">
      <p class="screen-hint sheet-links">
        <a href={page.jobHref}>Back to the job</a> <a href={page.textHref}>As plain text</a> Print this page: one sheet
        of A4, black on white.
      </p>
      <div class="sheet-head">
        <h1 class="what">{sheet.title}</h1>
        {sheet.standing !== null && <p class="sheet-standing">{sheet.standing}</p>}
        {sheet.startWarning !== null && <p class="sheet-standing">{sheet.startWarning}</p>}
        <SheetFacts facts={sheet.head} isRun />
      </div>
      <div class="sheet-columns">
        <Part title="Window">
          <SheetFacts facts={sheet.window} />
          {sheet.why !== null && <p class="sheet-why">{sheet.why}</p>}
        </Part>
        <Part title="Numbers: wind at the instrument (on deck)">
          <SheetNumbers rows={sheet.numbers} />
        </Part>
        <Part title="Go: every box ticked, or not at all">
          <Ticks lines={sheet.go} />
        </Part>
        <Part title="The boat meanwhile">
          <SheetFacts facts={sheet.boat} isRun />
        </Part>
        <Part title="Steps">
          <SheetSteps rows={sheet.steps} />
        </Part>
        <Part title="Stop: wind at the instrument">
          <Lines lines={sheet.stop} />
        </Part>
        <Part title="If you stop">
          <Lines lines={sheet.abort} />
        </Part>
        <Part title="If I am hurt" isCard>
          <Lines lines={sheet.hurt} />
        </Part>
        <Part title="Parts and tools">
          <SheetParts parts={sheet.parts} tools={sheet.tools} />
        </Part>
        <Part title="Tell">
          <Lines lines={sheet.talk} />
        </Part>
        <After checks={sheet.after} />
        <Part title="Cautions" isSmall>
          <Lines lines={sheet.cautions} />
        </Part>
      </div>
    </main>
  );
}

interface PartProps {
  readonly title: string;
  readonly isCard?: boolean;
  readonly isSmall?: boolean;
  readonly children: ComponentChildren;
}

function Part({ title, isCard = false, isSmall = false, children }: PartProps): JSX.Element {
  const kind = isCard ? ' sheet-card' : isSmall ? ' sheet-small' : '';
  return (
    <section class={`sheet-part${kind}`}>
      <h2>{title}</h2>
      {children}
    </section>
  );
}

/** In print one after another where `isRun`, else each on a line of its own. */
function SheetFacts({ facts, isRun = false }: { facts: Sheet['head']; isRun?: boolean }): JSX.Element | null {
  if (facts.length === 0) return null;
  return (
    <dl class={isRun ? 'sheet-facts sheet-run' : 'sheet-facts'}>
      {facts.map(({ term, text }) => (
        <div key={term}>
          <dt>{term}</dt>
          <dd>{text}</dd>
        </div>
      ))}
    </dl>
  );
}

/** Up to so many characters two lines stand side by side. */
const SHORT_COUNT = 30;

const Ticks = ({ lines }: { lines: readonly string[] }): JSX.Element => (
  <ul class="sheet-ticks">
    {lines.map((line) => (
      <li key={line} class={line.length <= SHORT_COUNT ? 'sheet-short' : undefined}>
        {line}
      </li>
    ))}
  </ul>
);

const Lines = ({ lines }: { lines: readonly string[] }): JSX.Element => (
  <ul class="sheet-lines">
    {lines.map((line) => (
      <li key={line}>{line}</li>
    ))}
  </ul>
);

function After({ checks }: { checks: Sheet['after'] }): JSX.Element {
  return (
    <Part title="After">
      <ul class="sheet-ticks">
        {checks.map(({ term, text }, index) => (
          <li key={index}>
            {term}: {text}
            {text === '' && <Blank />}
          </li>
        ))}
      </ul>
      <p>
        What I would do differently: <Blank />
      </p>
      <p>
        <Blank />
      </p>
    </Part>
  );
}

/** Room to write in. */
const Blank = (): JSX.Element => <span class="sheet-blank" />;
