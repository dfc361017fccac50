import type { JSX } from 'preact';

/** Paragraphs, one to a sentence. */
export function Sentences({ sentences }: { sentences: readonly string[] }): JSX.Element {
  return (
    <div class="sentences">
      {sentences.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
    </div>
  );
}
