import type { JSX } from 'preact';
import type { DocumentPage, OtherDocument, ShownDocument } from '../../server/presenters/document-page.ts';
import { ProblemList } from '../parts/problems.tsx';
import { VersionField } from '../parts/version-field.tsx';
import { type Around, Frame } from './frame.tsx';

export function DocumentPageDocument({ page, around }: { page: DocumentPage; around: Around }): JSX.Element {
  return (
    <Frame title="Passage as it is kept – Slatch" around={around} clock={null} current={null}>
      <DocumentPageMain page={page} />
    </Frame>
  );
}

/** What is kept of the passage, where it came from, and what else there is. */
export function DocumentPageMain({ page }: { page: DocumentPage }): JSX.Element {
  return (
    <main id="passage" class="alone document-page">
      <h1 class="what">The passage as it is kept</h1>
      {page.problems.length > 0 && <ProblemList problems={page.problems} />}
      {page.shown === null ? (
        <p>No passage was taken over yet: its file has to be put right first.</p>
      ) : (
        <Shown shown={page.shown} />
      )}
      {page.others.length > 0 && <Others others={page.others} />}
    </main>
  );
}

function Shown({ shown }: { shown: ShownDocument }): JSX.Element {
  return (
    <section aria-labelledby="document-title">
      <h2 id="document-title">{shown.title}</h2>
      <dl class="facts">
        <Row term="Name">{shown.name}</Row>
        <Row term="Last saved">{shown.saved}</Row>
        <Row term="Taken over from">{shown.sourceFile}</Row>
      </dl>
      <p>{shown.sourceState}</p>
      <p>
        <a href="/document/passage.json">Save it as a passage file</a>
      </p>
      {shown.takeOver !== null && (
        <form class="once" method="post" action="/document/take-over">
          <VersionField version={shown.version} />
          <button>{shown.takeOver}</button>
        </form>
      )}
      <h2>Its versions</h2>
      <ul class="plain">
        {shown.versions.map(({ version, saved }) => (
          <li key={version}>
            Version {version}, {saved}
          </li>
        ))}
      </ul>
    </section>
  );
}

const Row = ({ term, children }: { term: string; children: string }): JSX.Element => (
  <div>
    <dt>{term}</dt>
    <dd>{children}</dd>
  </div>
);

function Others({ others }: { others: readonly OtherDocument[] }): JSX.Element {
  return (
    <section aria-labelledby="others-title">
      <h2 id="others-title">Other passages taken over from this file</h2>
      <ul class="plain">
        {others.map(({ number, name, text }) => (
          <li key={number}>
            <form method="post" action="/document/show">
              <p>
                <b>{name}</b>: {text}
              </p>
              <button name="number" value={String(number)} aria-label={`Show passage ${number}`}>
                Show this one
              </button>
            </form>
          </li>
        ))}
      </ul>
    </section>
  );
}
