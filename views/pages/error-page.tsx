import type { JSX } from 'preact';
import { type Around, Frame } from './frame.tsx';

export interface ErrorText {
  readonly title: string;
  readonly text: string;
}

export function ErrorDocument({ error, around }: { error: ErrorText; around: Around }): JSX.Element {
  return (
    <Frame title={`${error.title} – Slatch`} around={around} clock={null} current={null}>
      <ErrorMain error={error} />
    </Frame>
  );
}

/** The part of the error page that fits where the passage stands. */
export function ErrorMain({ error }: { error: ErrorText }): JSX.Element {
  return (
    <main id="passage" class="alone">
      <section class="state" aria-labelledby="state-title">
        <h1 class="what" id="state-title">
          {error.title}
        </h1>
        <p>{error.text}</p>
        <p>
          <a href="/">To the passage</a>
        </p>
      </section>
    </main>
  );
}
