import type { JSX } from 'preact';
import type { Choice, Option, PickForm } from '../../server/presenters/windows-page.ts';

/** Job, part and handling. */
export function WindowsChoice({ choice }: { choice: Choice }): JSX.Element {
  return (
    <form
      class="choice"
      method="get"
      action="/windows"
      hx-get="/windows"
      hx-target="#passage"
      hx-swap="outerHTML"
      hx-push-url="true"
    >
      <Choose id="job" label="Job" options={choice.jobs} />
      {choice.parts.length > 1 && <Choose id="part" label="Part" options={choice.parts} />}
      {choice.handlings.length > 1 && <Choose id="handling" label="Handling" options={choice.handlings} />}
      <button id="show-windows">Show</button>
    </form>
  );
}

function Choose({ id, label, options }: { id: string; label: string; options: readonly Option[] }): JSX.Element {
  return (
    <label>
      {label}
      <select id={`choose-${id}`} name={id}>
        {options.map(({ value, text, isChosen }) => (
          <option key={value} value={value} selected={isChosen}>
            {text}
          </option>
        ))}
      </select>
    </label>
  );
}

/** A start in ship's time, to be looked at. */
export function PickStart({ pick }: { pick: PickForm }): JSX.Element {
  return (
    <form
      class="choice pick"
      method="get"
      action="/windows"
      hx-get="/windows"
      hx-target="#passage"
      hx-swap="outerHTML"
      hx-push-url="true"
    >
      {pick.hidden.map(({ name, value }) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <label>
        Start, ship’s time
        <input
          id="pick-start"
          type="datetime-local"
          name="ship"
          value={pick.value}
          min={pick.least}
          max={pick.most}
          step={pick.stepS}
          required
        />
      </label>
      <button id="look-at-start" class="main-button">
        Look at this start
      </button>
    </form>
  );
}
