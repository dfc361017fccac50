import type { ComponentChildren, JSX } from 'preact';
import type { Problem } from '../../lib/result/index.ts';
import type { MessagesPage, WriteView } from '../../server/presenters/messages-page.ts';
import { CountPart } from './message-count.tsx';
import { VersionField } from './version-field.tsx';

/** The form that writes a message. What belongs to another kind than the chosen one is hidden by the style sheet. */
export function WritePart({ page }: { page: MessagesPage }): JSX.Element {
  const { write } = page;
  const { texts } = write;
  // One button of a page is filled: where a message is found that can be taken over, it is that one's.
  const isOtherFilled = page.read.found?.found.some(({ content }) => content.action !== null) === true;
  const elsewhere = write.problems.filter(({ where }) => !Object.hasOwn(texts, where));
  return (
    <section aria-labelledby="write-title" id="write">
      <h2 id="write-title">Write one</h2>
      {elsewhere.length > 0 && <ProblemLines problems={elsewhere} />}
      <form
        method="post"
        action="/messages/write#write"
        class="message-form"
        hx-post="/messages/count"
        hx-trigger="input delay:500ms"
        hx-target="#message-count"
        hx-swap="outerHTML"
      >
        <VersionField version={page.version} />
        <input type="hidden" name="token" value={page.formToken} />
        <Choices name="kind" legend="What" write={write} chosen={texts.kind}>
          {[
            ['plan', 'The plan', write.planText],
            ['digest', 'A weather digest', 'wind, gust, sea, pressure and rain along the way: enough to plan with'],
            ['report', 'A report', 'from the log: place, weather seen, sleep, jobs'],
          ]}
        </Choices>
        <div class="message-fields">
          <div class="of-plan">
            <Labelled name="detail" label="Of the plan" write={write}>
              <select id="write-detail" name="detail" {...wrongOf(write, 'detail')}>
                <option value="full" selected={texts.detail !== 'short'}>
                  all of it
                </option>
                <option value="short" selected={texts.detail === 'short'}>
                  what, when, how sure, what if not, when to stop
                </option>
              </select>
            </Labelled>
          </div>
          <div class="of-digest">
            <Text name="hours" label="Hours ahead" hint="48, 96 or another number, at most 240" write={write} />
          </div>
          <div class="of-digest">
            <Text
              name="parts"
              label="Parts at most"
              hint="empty: as much as two bursts of 270 for every 48 h"
              write={write}
            />
          </div>
          <div class="of-report">
            <Text
              name="observations"
              label="Observations"
              hint="so many of the newest; more let the shore check the forecast"
              write={write}
            />
          </div>
          <div class="of-words">
            <Text name="note" label="Words to go with it" hint="may be left out" write={write} />
          </div>
        </div>
        <Choices name="length" legend="In parts of" write={write} chosen={texts.length}>
          {[
            ['satellite', '270 octets', 'bursts of a satellite terminal'],
            ['sms', '160 septets', 'short messages of a telephone'],
            ['other', 'another length', 'as said below'],
          ]}
        </Choices>
        <div class="message-fields">
          <div class="of-other">
            <Text name="limit" label="Length of a part" hint="at least 80 characters" write={write} />
          </div>
          <div>
            <Text
              name="sender"
              label="Sender"
              hint="1 to 4 letters and digits, always the same: such as LW"
              write={write}
            />
          </div>
          <div>
            <Text
              name="counter"
              label="Counter"
              hint="empty: the next one; higher only where another machine has used some"
              write={write}
            />
          </div>
        </div>
        <CountPart count={write.count} />
        <p class="message-buttons">
          <button class={isOtherFilled ? undefined : 'main-button'}>Write it</button>
          <button formaction="/messages/count#write">Count it first</button>
        </p>
        <p class="message-hint">
          It is written and kept; nothing is sent. Every message uses up one number of its sender and kind.
        </p>
      </form>
    </section>
  );
}

type Name = keyof WriteView['texts'];

interface ChoicesProps {
  readonly name: Name;
  readonly legend: string;
  readonly write: WriteView;
  readonly chosen: string;
  readonly children: readonly (readonly [value: string, text: string, hint: string])[];
}

function Choices({ name, legend, write, chosen, children }: ChoicesProps): JSX.Element {
  return (
    <fieldset class="message-choice">
      <legend>{legend}</legend>
      {children.map(([value, text, hint]) => (
        <label key={value}>
          <input type="radio" name={name} value={value} checked={value === chosen} />
          <span>
            {text} <small>{hint}</small>
          </span>
        </label>
      ))}
      <Wrong name={name} write={write} />
    </fieldset>
  );
}

interface LabelledProps {
  readonly name: Name;
  readonly label: string;
  readonly write: WriteView;
  readonly children: ComponentChildren;
}

const Labelled = ({ name, label, write, children }: LabelledProps): JSX.Element => (
  <>
    <label for={`write-${name}`}>{label}</label>
    {children}
    <Wrong name={name} write={write} />
  </>
);

function Text({ name, label, hint, write }: Omit<LabelledProps, 'children'> & { readonly hint: string }): JSX.Element {
  return (
    <Labelled name={name} label={label} write={write}>
      <input
        id={`write-${name}`}
        type="text"
        name={name}
        value={write.texts[name]}
        autocomplete="off"
        {...wrongOf(write, name)}
      />
      <small>{hint}</small>
    </Labelled>
  );
}

const problemsAt = ({ problems }: WriteView, name: Name): readonly Problem[] =>
  problems.filter(({ where }) => where === name);

const wrongOf = (
  write: WriteView,
  name: Name,
): { 'aria-invalid': 'true'; 'aria-describedby': string } | Record<string, never> =>
  problemsAt(write, name).length === 0 ? {} : { 'aria-invalid': 'true', 'aria-describedby': `wrong-${name}` };

function Wrong({ name, write }: { name: Name; write: WriteView }): JSX.Element | null {
  const problems = problemsAt(write, name);
  return problems.length === 0 ? null : <ProblemLines id={`wrong-${name}`} problems={problems} />;
}

const ProblemLines = ({ id, problems }: { id?: string; problems: readonly Problem[] }): JSX.Element => (
  <div class="message-wrong" {...(id === undefined ? {} : { id })}>
    {problems.map(({ what, expected, remedy }) => (
      <p key={what}>
        {what} Expected: {expected}. {remedy}
      </p>
    ))}
  </div>
);
