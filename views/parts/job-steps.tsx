import type { JSX } from 'preact';
import type { Marked, StepView } from '../../server/presenters/job-steps-view.ts';

/** The steps in their order, each with time, place, limits, what it takes and how it is done. */
export function JobSteps({ steps }: { steps: readonly StepView[] }): JSX.Element {
  return (
    <section class="job-steps" aria-labelledby="steps-title">
      <h2 id="steps-title">Steps</h2>
      <p class="subtitle">
        Minutes are least / likely / most, limits ideal / caution / no-go, wind over the deck at 2 m. Figures without a
        mark are the library’s, by common practice unless a source stands there.
      </p>
      <ol>
        {steps.map((step) => (
          <Step key={step.id} step={step} />
        ))}
      </ol>
    </section>
  );
}

function Step({ step }: { step: StepView }): JSX.Element {
  return (
    <li class={`job-step${step.isDone ? ' is-done' : ''}`}>
      <h3>
        {step.title}
        {step.isDone && <small> finished</small>}
      </h3>
      <p class="step-time">
        <b>{step.minutes.text}</b>
        <MarkedText of={{ ...step.minutes, text: '' }} />, {step.how.join('; ')}
      </p>
      <dl class="step-facts">
        <div>
          <dt>Limits</dt>
          <dd>
            <MarkedList items={step.limits} />
          </dd>
        </div>
        {step.byEye.length > 0 && (
          <div>
            <dt>By eye</dt>
            <dd>{step.byEye.join(' ')}</dd>
          </div>
        )}
        {step.facts.map(({ term, text }) => (
          <div key={term}>
            <dt>{term}</dt>
            <dd>
              <MarkedText of={text} />
            </dd>
          </div>
        ))}
      </dl>
      {step.instructions.length > 0 && (
        <ul class="check">
          {step.instructions.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
      {step.wait !== null && (
        <p class="step-wait">
          <MarkedText of={step.wait} />
        </p>
      )}
      {step.isSafePoint && <p class="safe-point">Safe point: she may be left for hours.</p>}
    </li>
  );
}

const MarkedList = ({ items }: { items: readonly Marked[] }): JSX.Element => (
  <>
    {items.map((item, index) => (
      <span key={item.text}>
        {index > 0 && '; '}
        <MarkedText of={item} />
      </span>
    ))}
  </>
);

function MarkedText({ of: { text, mark, source } }: { of: Marked }): JSX.Element {
  return (
    <>
      {text}
      {mark !== '' && (
        <>
          {' '}
          <span class="default">{mark}</span>
        </>
      )}
      {source !== '' && <small class="source"> ({source})</small>}
    </>
  );
}
