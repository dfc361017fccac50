import type { JSX } from 'preact';
import type { AsText, JobEditPage, Section, StepSection } from '../../server/presenters/job-edit-page.ts';
import { JobField } from './job-field.tsx';
import { ProblemList } from './problems.tsx';
import { VersionField } from './version-field.tsx';

/** The form of a job, and its entry as text for what the form does not hold. */
export function JobEditMain({ page }: { page: JobEditPage }): JSX.Element {
  return (
    <main id="passage" class="alone job-edit">
      <form method="post" action={page.action}>
        <div class="save-bar">
          <button class="main-button">Save</button>
          <a class="button" href={page.backHref}>
            Leave without saving
          </a>
        </div>
        <h1 class="what">{page.title}</h1>
        {page.note !== '' && (
          <p class="form-note" role="status">
            {page.note}
          </p>
        )}
        <Wrong page={page} />
        <VersionField version={page.version} />
        <input type="hidden" name="base" value={page.base} />
        {page.sections.map((section) => (
          <FormSection key={section.id} section={section} />
        ))}
        <Steps page={page} />
      </form>
      {page.asText !== null && <Text asText={page.asText} version={page.version} />}
    </main>
  );
}

function Wrong({ page: { wrong, lost } }: { page: JobEditPage }): JSX.Element {
  return (
    <>
      {wrong.length > 0 && (
        <nav class="form-wrong" aria-label="What has to be put right">
          <ul class="plain">
            {wrong.map(({ inputId, text }) => (
              <li key={`${inputId} ${text}`}>
                <a href={`#${inputId}`}>{text}</a>
              </li>
            ))}
          </ul>
        </nav>
      )}
      {lost.length > 0 && (
        <div class="form-note">
          <p>You entered this for steps that are no longer there:</p>
          <ul class="plain">
            {lost.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </div>
      )}
    </>
  );
}

function FormSection({ section }: { section: Section }): JSX.Element {
  return (
    <details class="form-section" open={section.isOpen} id={`section-${section.id}`}>
      <summary>
        <h2>{section.title}</h2>
      </summary>
      {section.hint !== '' && <p class="subtitle">{section.hint}</p>}
      <Groups section={section} />
    </details>
  );
}

const Groups = ({ section }: { section: Section }): JSX.Element => (
  <div class="form-groups">
    {section.groups.map((group) => (
      <JobField key={group.id} group={group} />
    ))}
  </div>
);

function Steps({ page }: { page: JobEditPage }): JSX.Element {
  return (
    <section class="form-steps" aria-labelledby="form-steps-title" id="steps">
      <h2 id="form-steps-title">Steps</h2>
      {page.steps.map((step) => (
        <StepPart key={step.id} step={step} action={page.action} />
      ))}
      <button name="do" value="add" formaction={`${page.action}#steps-end`} id="steps-end">
        Add a step
      </button>
    </section>
  );
}

function StepPart({ step, action }: { step: StepSection; action: string }): JSX.Element {
  return (
    <details class="form-step" open={step.isOpen} id={`step-${step.id}`}>
      <summary>
        <h3>{step.title}</h3>
        <small>{step.summary}</small>
      </summary>
      <input type="hidden" name="step" value={step.id} />
      {step.of !== null && <input type="hidden" name={`of.${step.id}`} value={step.of} />}
      <div class="step-moves">
        <Move step={step} action={action} kind="up" text="Up" isOff={!step.canGoUp} />
        <Move step={step} action={action} kind="down" text="Down" isOff={!step.canGoDown} />
        <Move step={step} action={action} kind="split" text="Split in two" isOff={false} />
        <Move step={step} action={action} kind="remove" text="Remove" isOff={!step.canGo} />
      </div>
      {step.parts.map((part) => (
        <div key={part.id} class="step-part">
          <h4>{part.title}</h4>
          {part.hint !== '' && <p class="subtitle">{part.hint}</p>}
          <Groups section={part} />
        </div>
      ))}
    </details>
  );
}

interface MoveProps {
  readonly step: StepSection;
  readonly action: string;
  readonly kind: string;
  readonly text: string;
  readonly isOff: boolean;
}

const Move = ({ step, action, kind, text, isOff }: MoveProps): JSX.Element => (
  <button
    name="do"
    value={`${kind}:${step.id}`}
    formaction={`${action}#${kind === 'remove' ? 'steps' : `step-${step.id}`}`}
    disabled={isOff}
    aria-label={`${text}: ${step.title}`}
  >
    {text}
  </button>
);

function Text({ asText, version }: { asText: AsText; version: string }): JSX.Element {
  const isWrong = asText.problems.length > 0;
  return (
    <details class="form-section as-text" open={asText.isOpen} id="as-text">
      <summary>
        <h2>As text, with all the form does not hold</h2>
      </summary>
      <form method="post" action={`${asText.action}#as-text`}>
        <VersionField version={version} />
        {isWrong && (
          <div id="entry-wrong">
            <ProblemList problems={asText.problems} />
          </div>
        )}
        <label for="entry-text">The entry of this job in the passage file (JSON)</label>
        <textarea
          id="entry-text"
          name="entry"
          rows={18}
          spellcheck={false}
          {...(isWrong ? { 'aria-invalid': 'true' as const, 'aria-describedby': 'entry-wrong' } : {})}
        >
          {asText.text}
        </textarea>
        <button>Save this text</button>
      </form>
    </details>
  );
}
