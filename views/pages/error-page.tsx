import type { JSX } from 'preact';
import { Frame, type Style } from './frame.tsx';

export interface ErrorText {
  readonly title: string;
  readonly text: string;
}

export function ErrorDocument({ error, style }: { error: ErrorText; style: Style }): JSX.Element {
  return (
    <Frame title={`${error.title} – Slatch`} style={style} clock={null} current={null}>
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
