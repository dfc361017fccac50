import type { JSX } from 'preact';
import type { FieldView, GroupView } from '../../server/presenters/job-edit-page.ts';

/** Inputs of one value, with their hint, what the library has, and what is wrong with them. */
export function JobField({ group }: { group: GroupView }): JSX.Element {
  const [only] = group.fields;
  const describedBy = `${group.id}-said`;
  const isAlone = group.fields.length === 1 && only !== undefined && only.kind !== 'choices';
  const wrong = group.problems.length > 0 ? ' wrong' : '';
  if (isAlone)
    return (
      <div class={`field kind-${only.kind}${wrong}`}>
        <label for={only.id}>{group.label}</label>
        <Input field={only} describedBy={describedBy} />
        <Said group={group} id={describedBy} />
      </div>
    );
  return (
    <fieldset class={`field many${wrong}`} aria-describedby={describedBy}>
      <legend>{group.label}</legend>
      <div class={`inputs of-${group.fields.length}${group.isTable ? ' in-rows' : ''}`}>
        {group.fields.map((field) =>
          field.kind === 'choices' ? (
            <Ticks key={field.name} field={field} isNamed={group.fields.length > 1} />
          ) : (
            <label key={field.name} class={`kind-${field.kind}`}>
              <span>{field.label}</span>
              <Input field={field} describedBy={describedBy} />
            </label>
          ),
        )}
      </div>
      <Said group={group} id={describedBy} />
    </fieldset>
  );
}

function Said({ group, id }: { group: GroupView; id: string }): JSX.Element {
  return (
    <div id={id} class="said-of-field">
      {group.problems.map(({ code, what, expected, remedy }) => (
        <p key={`${code} ${what}`} class="field-problem">
          <b>{what}</b> Expected: {expected}. {remedy}
        </p>
      ))}
      {group.keptNow !== null && <p class="kept-now">Kept now: {group.keptNow}</p>}
      {group.library !== null && <p>Library: {group.library}</p>}
      {group.hint !== '' && <p>{group.hint}</p>}
    </div>
  );
}

interface InputProps {
  readonly field: FieldView;
  readonly describedBy: string;
}

function Input({ field, describedBy }: InputProps): JSX.Element {
  const shared = {
    id: field.id,
    name: field.name,
    'aria-describedby': describedBy,
    ...(field.isWrong ? { 'aria-invalid': 'true' as const } : {}),
  };
  if (field.kind === 'choice') return <Choice field={field} shared={shared} />;
  if (field.kind === 'lines')
    return (
      <textarea {...shared} rows={Math.max(2, field.value.split('\n').length + 1)}>
        {field.value}
      </textarea>
    );
  return (
    <span class="with-unit">
      {field.kind === 'instant' && isShipTime(field.value) ? (
        <input {...shared} type="datetime-local" value={field.value} />
      ) : (
        <input
          {...shared}
          {...(field.kind === 'figure' ? { inputMode: 'decimal' } : {})}
          type="text"
          autocomplete="off"
          value={field.value}
        />
      )}
      {field.unit !== '' && <span class="unit">{field.unit}</span>}
    </span>
  );
}

/** What a chooser of dates can show; anything else stays a text, so that it is not lost. */
const isShipTime = (text: string): boolean => /^(\d{4}-\d\d-\d\dT\d\d:\d\d)?$/.test(text);

interface Shared {
  readonly id: string;
  readonly name: string;
}

/** A value that is none of the options is offered too, so that it is not changed by looking at it. */
function Choice({ field, shared }: { field: FieldView; shared: Shared }): JSX.Element {
  const isKnown = field.options.some(({ value }) => value === field.value);
  const options = isKnown ? field.options : [{ value: field.value, text: field.value }, ...field.options];
  return (
    <select {...shared}>
      {options.map(({ value, text }) => (
        <option key={value} value={value} selected={value === field.value}>
          {text}
        </option>
      ))}
    </select>
  );
}

/** Any of the options; the empty hidden one says that the list was there, though nothing may be ticked. */
function Ticks({ field, isNamed }: { field: FieldView; isNamed: boolean }): JSX.Element {
  const chosen = field.value.split('\n');
  return (
    <div class="ticks" role="group" aria-label={isNamed ? field.label : undefined} id={field.id} tabIndex={-1}>
      {isNamed && <span class="ticks-name">{field.label}</span>}
      <input type="hidden" name={field.name} value="" />
      {field.options.length === 0 && <p>There are none.</p>}
      {field.options.map(({ value, text }) => (
        <label key={value} class="tick">
          <input type="checkbox" name={field.name} value={value} checked={chosen.includes(value)} />
          <span>{text}</span>
        </label>
      ))}
    </div>
  );
}
