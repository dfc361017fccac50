import type { JSX } from 'preact';
import type { MessageContent } from '../../server/presenters/message-content.ts';
import type { PartView } from '../../server/presenters/message-parts.ts';
import { ProblemList } from './problems.tsx';

/** Letters of a part in a line of its text area, on the desk. */
const LINE_CHARACTERS_COUNT = 60;

/** A text to be copied, with how much it fills of what one sending takes. */
export function PartText({ part, id }: { part: PartView; id: string }): JSX.Element {
  return (
    <div class="message-part">
      <label for={id}>{part.label}</label>
      <textarea id={id} readOnly rows={Math.ceil(part.text.length / LINE_CHARACTERS_COUNT)} spellcheck={false}>
        {part.text}
      </textarea>
      <Length length={part.length} filledShare={part.filledShare} />
      <CopyButton ids={[id]} text="Copy" name={`Copy: ${part.label}`} />
    </div>
  );
}

interface CopyProps {
  /** Of the fields whose texts are copied, a line each. */
  readonly ids: readonly string[];
  readonly text: string;
  /** For those who hear it: which text. */
  readonly name: string;
}

/** Copies texts; there only where script runs. */
export function CopyButton({ ids, text, name }: CopyProps): JSX.Element {
  const told = `told-${ids.join('-')}`;
  return (
    <p class="message-copy">
      <button type="button" hidden data-copy={ids.join(' ')} data-told={told} aria-label={name}>
        {text}
      </button>
      <span id={told} role="status" />
    </p>
  );
}

interface LengthProps {
  /** Of which part; absent: it stands beside it. */
  readonly label?: string;
  readonly length: string;
  readonly filledShare: number;
}

/** How much of what one sending takes is filled, drawn and in figures. */
export const Length = ({ label, length, filledShare }: LengthProps): JSX.Element => (
  <p class="message-length">
    {filledShare > 0 && (
      <svg viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true">
        <rect class="room" width="100" height="6" />
        <rect class="filled" width={(filledShare * 100).toFixed(1)} height="6" />
      </svg>
    )}
    {label !== undefined && `${label}: `}
    {length}
  </p>
);

/** What a message says, and what it has for plan and log. `level` is that of its headings. */
export function ContentPart({ content, level }: { content: MessageContent; level: 2 | 4 }): JSX.Element {
  const Heading: 'h2' | 'h4' = level === 2 ? 'h2' : 'h4';
  return (
    <>
      {content.compared.length > 0 && (
        <>
          <Heading>Against the plan here</Heading>
          <ul class="plain">
            {content.compared.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </>
      )}
      {(content.entries.length > 0 || content.entriesNote !== '') && (
        <>
          <Heading>For the log</Heading>
          {content.entriesNote !== '' && <p>{content.entriesNote}</p>}
          <ol class="message-entries">
            {content.entries.map(({ when, utc, words }) => (
              <li key={`${utc} ${words}`}>
                <b>{when}</b> <small>{utc}</small> {words}
              </li>
            ))}
          </ol>
        </>
      )}
      {content.refused.map(({ words, problems }) => (
        <div key={words} class="message-refused">
          <p>This cannot be written into the log here: {words}</p>
          <ProblemList problems={problems} />
        </div>
      ))}
      <Heading>What it says</Heading>
      <div class="message-words">
        {content.words.map(({ text, isWithin }) => (
          <p key={text} class={isWithin ? 'within' : undefined}>
            {text}
          </p>
        ))}
      </div>
    </>
  );
}
