import type { JSX } from 'preact';
import type { Fact } from '../../server/presenters/fact.ts';
import type { NextCard } from '../../server/presenters/next-card.ts';

/** What to do next, or the job somebody chose to look at. */
export function NextCardPart({ card }: { card: NextCard }): JSX.Element {
  return (
    <section class="next" aria-labelledby="next-what">
      <p class="label">
        {card.label}
        {card.backHref !== null && (
          <a
            class="back"
            href={card.backHref}
            hx-get={card.backHref}
            hx-target="#passage"
            hx-swap="outerHTML show:top"
            hx-push-url="true"
          >
            back to what is next
          </a>
        )}
      </p>
      <h1 class="what" id="next-what">
        {card.what}
      </h1>
      {card.when !== null && (
        <p class="when">
          {card.when} <small>{card.whenUtc}</small>
        </p>
      )}
      {card.startBetween !== null && <p class="between">{card.startBetween}</p>}
      {card.standing !== null && <p class={card.when === null ? 'standing' : 'standing outlined'}>{card.standing}</p>}
      {card.before !== null && <p class="before">{card.before}</p>}
      {card.lookout !== null && <p class="card-lookout">{card.lookout}</p>}
      <Facts facts={card.facts} />
      <Why card={card} />
      <Checks card={card} />
      <Otherwise card={card} />
      <Facts facts={card.moreFacts} />
      <p class="to-sheet">
        <a class="as-button main-button" href={card.sheetHref}>
          Deck sheet
        </a>
        <a class="as-button" href={card.windowsHref}>
          Other starts
        </a>
      </p>
    </section>
  );
}

function Why({ card }: { card: NextCard }): JSX.Element | null {
  if (card.why.length === 0) return null;
  return (
    <div class="why">
      <h2>{card.when === null ? 'Why not' : 'Why then'}</h2>
      {card.why.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {card.whyNotEarlier !== null && (
        <details class="not-earlier">
          <summary>Why not earlier</summary>
          <p>{card.whyNotEarlier}</p>
        </details>
      )}
    </div>
  );
}

/** What is looked at before a start, and what that look will probably say. */
function Checks({ card }: { card: NextCard }): JSX.Element {
  return (
    <>
      {card.startWarning !== null && <p class="start-warning">{card.startWarning}</p>}
      {card.checks.length > 0 && (
        <div class="look">
          <h2>Look before you start</h2>
          <ul class="check">
            {card.checks.map((check) => (
              <li key={check}>{check}</li>
            ))}
          </ul>
        </div>
      )}
    </>
  );
}

function Otherwise({ card }: { card: NextCard }): JSX.Element {
  return (
    <>
      {card.ifNot !== null && (
        <p class="else">
          <strong>If not:</strong> {card.ifNot}
        </p>
      )}
      {card.planLeft !== null && (
        <p class="else">
          <strong>The plan that is left:</strong> {card.planLeft}
        </p>
      )}
      {card.decideBy !== null && (
        <p class="else">
          <strong>Decide by:</strong> {card.decideBy}
        </p>
      )}
    </>
  );
}

/** Lines of figures: term, figure, what belongs to it. */
export function Facts({ facts }: { facts: readonly Fact[] }): JSX.Element | null {
  if (facts.length === 0) return null;
  return (
    <dl class="facts">
      {facts.map((fact) => (
        <div key={fact.term}>
          <dt>{fact.term}</dt>
          <dd>
            <b>{fact.figure}</b> <small>{fact.rest}</small>
          </dd>
          {fact.below !== undefined && (
            <dd class="below">
              <small>{fact.below}</small>
            </dd>
          )}
        </div>
      ))}
    </dl>
  );
}
