import type { JSX } from 'preact';
import type { LimitRow, StartCard } from '../../server/presenters/start-card.ts';
import { Facts } from './next-card.tsx';
import { LockForm } from './job-orders.tsx';
import { TrialStartForm } from './trial-start.tsx';

/** Why a start would do, or would not. */
export function StartCardPart({ card }: { card: StartCard }): JSX.Element {
  return (
    <section class="start" aria-labelledby="start-title" id="start">
      <p class="label">{card.jobName}: the start you look at</p>
      <h2 class="when" id="start-title">
        {card.when} <small>{card.whenUtc}</small>
      </h2>
      <p class="verdict">{card.verdict}</p>
      {card.unknown !== null && <p class="standing outlined">{card.unknown}</p>}
      <Moves moves={card.moves} />
      <Facts facts={card.facts} />
      <Limits limits={card.limits} />
      <div class="why">
        <h3>In the plan that stands</h3>
        <p>{card.planned}</p>
        {card.clashes.length === 0 ? (
          <p>Nothing is in its way.</p>
        ) : (
          <ul class="plain">
            {card.clashes.map((clash) => (
              <li key={clash}>{clash}</li>
            ))}
          </ul>
        )}
        {card.trial !== null && (
          <>
            <p>“Try this in the plan” plans all jobs around this start and shows what it changes. Nothing is saved.</p>
            <TrialStartForm start={card.trial} button="Try this in the plan" />
          </>
        )}
        {card.lock !== null && (
          <>
            <p class="or-lock">
              “Start then” locks the job to this start, and the plan is made anew around it. It can be taken back.
            </p>
            <LockForm action={card.lock.action} version={card.lock.version} button={card.lock.button} />
          </>
        )}
      </div>
    </section>
  );
}

function Moves({ moves }: { moves: StartCard['moves'] }): JSX.Element {
  return (
    <p class="moves">
      {moves.map(({ text, href }) => (
        <a
          key={text}
          id={`move-${text.replaceAll(' ', '-')}`}
          href={href}
          hx-get={href}
          hx-target="#passage"
          hx-swap="outerHTML"
          hx-push-url="true"
        >
          {text}
        </a>
      ))}
    </p>
  );
}

function Limits({ limits }: { limits: readonly LimitRow[] }): JSX.Element | null {
  if (limits.length === 0) return null;
  return (
    <div class="limits">
      <h3 id="limits-title">Its limits, tightest first</h3>
      <ul class="limit-list" aria-labelledby="limits-title">
        {limits.map((row) => (
          <li key={row.limit} class={row.isBroken ? 'broken' : undefined}>
            <span class="limit-name">{row.limit}</span> <b>{row.room}</b>
            <small>{row.measured}</small>
            {row.isBroken && <small class="broken-in">breaks in {row.broken}</small>}
          </li>
        ))}
      </ul>
    </div>
  );
}
