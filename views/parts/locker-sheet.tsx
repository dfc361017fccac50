import type { JSX } from 'preact';
import type { CuttingView, DrawnSection, Figure } from '../../server/presenters/locker-cutting.ts';
import type { CutPage } from '../../server/presenters/locker-page.ts';
import { BarKey, BarPicture } from './locker-bars.tsx';

/** The cut sheet alone. */
export function LockerCutMain({ page }: { page: CutPage }): JSX.Element {
  return (
    <main id="passage" class="locker-page cut-page">
      <p class="passage-name">{page.name}</p>
      <div>
        <h1 class="what">Cut sheet</h1>
        <p>
          Saw cut {page.cutting.kerf.text}
          <Default figure={page.cutting.kerf} />. Every length from the first end of its bar or piece.
        </p>
      </div>
      <div class="cutting">
        <CutSheet cutting={page.cutting} headings="h2" />
        <p class="locker-buttons">
          <a class="button" href="/locker#cutting">
            Back to the locker
          </a>
        </p>
      </div>
    </main>
  );
}

/** Behind a figure that is the program's own. */
export const Default = ({ figure }: { figure: Figure }): JSX.Element | null =>
  figure.isDefault ? (
    <>
      {' '}
      <span class="default">default</span>
    </>
  ) : null;

interface SheetProps {
  readonly cutting: CuttingView;
  /** One below the heading it stands under. */
  readonly headings: 'h2' | 'h3';
}

/** What it comes to, each bar and joined piece drawn and in lines, what is not made, what to mind. */
export function CutSheet({ cutting, headings: Heading }: SheetProps): JSX.Element {
  const { summary, bars, joined, notMade, rest } = cutting;
  return (
    <div class="sheet">
      <div class="sheet-summary">
        {summary.map((line) => (
          <p key={line}>{line}</p>
        ))}
      </div>
      {notMade.length > 0 && (
        <section class="sheet-part not-made">
          <Heading>Not made</Heading>
          <ul class="findings">
            {notMade.map(({ name, href, text }) => (
              <li key={href} class="bars">
                <p>
                  <a href={href}>{name}</a>
                </p>
                <p>{text}</p>
              </li>
            ))}
          </ul>
        </section>
      )}
      {bars.length > 0 && <BarKey hasJoins={joined.length > 0} />}
      {[...bars, ...joined].map((section) => (
        <Drawn key={section.heading} section={section} headings={Heading} />
      ))}
      {rest.map(({ heading, lines }) => (
        <section key={heading} class="sheet-part">
          <Heading>{heading}</Heading>
          <ul class="plain">
            {lines.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </section>
      ))}
    </div>
  );
}

interface DrawnProps {
  readonly section: DrawnSection;
  readonly headings: 'h2' | 'h3';
}

const Drawn = ({ section: { heading, lines, drawing }, headings: Heading }: DrawnProps): JSX.Element => (
  <section class="sheet-part drawn">
    <Heading>{heading}</Heading>
    <BarPicture drawing={drawing} />
    <ul class="sheet-lines">
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  </section>
);
