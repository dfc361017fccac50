import type { JSX } from 'preact';
import type { EntryPage } from '../../server/presenters/entry-page.ts';
import type { HoursPage, SpanRow } from '../../server/presenters/hours-page.ts';
import { JobField } from './job-field.tsx';
import { ProblemList } from './problems.tsx';
import { VersionField } from './version-field.tsx';

/** What is fixed about one job: the form of its lock and bounds, and the hours in which it is not worked. */
export function JobHoursMain({ page }: { page: HoursPage }): JSX.Element {
  return (
    <main id="passage" class="alone job-edit hours-page">
      <p class="passage-name">
        <a href="/plan">Plan</a>, {page.name}
      </p>
      <h1 class="what">Hours of “{page.title}”</h1>
      <p class="job-plan">
        {page.plan.when === '' ? 'Plan' : <b>Plan: {page.plan.when}</b>}
        {page.plan.more === '' ? '.' : `, ${page.plan.more.replace(/\.$/, '')}.`}{' '}
        <a href={page.windowsHref}>Its windows</a>
      </p>
      <section aria-labelledby="locked-title">
        <h2 id="locked-title">{page.orders.title}</h2>
        <FormPart form={page.orders} button="Save, and make the plan" isMain />
        <p class="hint">
          Which jobs come before it is said where <a href={page.editHref}>this job is edited</a>. The plan says what
          stands against a start that no plan can keep.
        </p>
      </section>
      <section aria-labelledby="forbidden" class="forbidden">
        <h2 id="forbidden">Hours in which it is not worked</h2>
        {page.spans.length === 0 ? (
          <p>None are forbidden.</p>
        ) : (
          <ul class="plain">
            {page.spans.map((span) => (
              <Span key={`${span.text} ${span.utc}`} span={span} page={page} />
            ))}
          </ul>
        )}
        <h3>{page.forbid.title}</h3>
        <FormPart form={page.forbid} button="Forbid these hours" isMain={false} />
      </section>
    </main>
  );
}

interface FormPartProps {
  readonly form: EntryPage;
  readonly button: string;
  readonly isMain: boolean;
}

function FormPart({ form, button, isMain }: FormPartProps): JSX.Element {
  return (
    <form method="post" action={form.action}>
      {form.note !== '' && (
        <p class="form-note" role="status">
          {form.note}
        </p>
      )}
      {form.wrong.length > 0 && (
        <nav class="form-wrong" aria-label="What has to be put right">
          <ul class="plain">
            {form.wrong.map(({ inputId, text }) => (
              <li key={`${inputId} ${text}`}>
                <a href={`#${inputId}`}>{text}</a>
              </li>
            ))}
          </ul>
        </nav>
      )}
      {form.problems.length > 0 && <ProblemList problems={form.problems} />}
      <VersionField version={form.version} />
      {form.hidden.map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <div class="fields">
        {form.sections
          .flatMap(({ groups }) => groups)
          .map((group) => (
            <JobField key={group.id} group={group} />
          ))}
      </div>
      <button class={isMain ? 'main-button' : undefined}>{button}</button>
    </form>
  );
}

function Span({ span, page }: { span: SpanRow; page: HoursPage }): JSX.Element {
  return (
    <li>
      <form method="post" action={page.allowAction}>
        <p>
          {span.text} <small>{span.utc}</small>
        </p>
        <VersionField version={page.version} />
        {span.hidden.map(([name, value]) => (
          <input key={name} type="hidden" name={name} value={value} />
        ))}
        <button aria-label={`Allow them again: ${span.text}`}>Allow them again</button>
      </form>
    </li>
  );
}
