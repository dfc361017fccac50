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
      {card.why.length > 0 && (
        <div class="why">
          <h2>{card.when === null ? 'Why not' : 'Why then'}</h2>
          {card.why.map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
        </div>
      )}
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
      <p class="to-sheet">
        <a href={card.sheetHref}>Deck sheet</a>
      </p>
    </section>
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
            {fact.below !== undefined && <small class="below">{fact.below}</small>}
          </dd>
        </div>
      ))}
    </dl>
  );
}
