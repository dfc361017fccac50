import type { JSX } from 'preact';
import type { JobReason, Paragraph, PlanLeft } from '../../server/presenters/job-reasons.ts';
import { JobOrdersPart } from './job-orders.tsx';
import { Facts } from './next-card.tsx';

/** Each job: how sure, how much room, why then and not earlier, what if not. */
export function JobReasons({ reasons }: { reasons: readonly JobReason[] }): JSX.Element {
  return (
    <section class="reasons" aria-labelledby="reasons-title">
      <h2 id="reasons-title">Why so</h2>
      {reasons.length === 0 ? (
        <p>This passage has no jobs.</p>
      ) : (
        <div class="reason-list">
          {reasons.map((reason) => (
            <Reason key={reason.jobId} reason={reason} />
          ))}
        </div>
      )}
    </section>
  );
}

function Reason({ reason }: { reason: JobReason }): JSX.Element {
  return (
    <article class={`reason ${reason.status}`} id={`job-${reason.jobId}`}>
      <h3 id={`job-${reason.jobId}-name`}>{reason.name}</h3>
      {reason.when !== null && (
        <p class="reason-when">
          <b>{reason.when}</b> <small>{reason.whenUtc}</small>
          {reason.startBetween !== null && <small class="below">{reason.startBetween}</small>}
        </p>
      )}
      {reason.standing !== null && (
        <p class={reason.status === 'conditional' ? 'standing outlined' : 'standing'}>{reason.standing}</p>
      )}
      <Facts facts={reason.facts} />
      {reason.paragraphs.map((paragraph) => (
        <Said key={paragraph.label} paragraph={paragraph} />
      ))}
      {reason.folded.length > 0 && (
        <details class="folded-words">
          <summary>{reason.folded.map(({ label }, i) => (i === 0 ? label : label.toLowerCase())).join(', ')}</summary>
          {reason.folded.map((paragraph) => (
            <Said key={paragraph.label} paragraph={paragraph} />
          ))}
        </details>
      )}
      {reason.planLeft !== null && <PlanLeftPart left={reason.planLeft} />}
      {reason.wouldBuy.length > 0 && (
        <div>
          <p>
            <strong>What would open a window:</strong>
          </p>
          <ul class="plain">
            {reason.wouldBuy.map(({ text, href }) => (
              <li key={text}>
                {text} <a href={href}>Look at that start</a>
              </li>
            ))}
          </ul>
        </div>
      )}
      {reason.checks.length > 0 && (
        <details>
          <summary>Look before you start</summary>
          <ul class="check">
            {reason.checks.map((check) => (
              <li key={check}>{check}</li>
            ))}
          </ul>
        </details>
      )}
      {reason.orders !== null && <JobOrdersPart orders={reason.orders} headingId={`job-${reason.jobId}-name`} />}
      <p class="to-windows">
        <a href={reason.windowsHref}>Its windows</a>
      </p>
    </article>
  );
}

const Said = ({ paragraph: { label, text } }: { paragraph: Paragraph }): JSX.Element => (
  <p>
    <strong>{label}:</strong> {text}
  </p>
);

function PlanLeftPart({ left }: { left: PlanLeft }): JSX.Element {
  return (
    <div>
      <p>
        <strong>The plan that is left:</strong> {left.text}
      </p>
      {left.starts.length > 0 && (
        <details>
          <summary>Its starts</summary>
          <ul class="plain">
            {left.starts.map((start) => (
              <li key={start}>{start}</li>
            ))}
          </ul>
        </details>
      )}
    </div>
  );
}
