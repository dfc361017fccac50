import type { JSX } from 'preact';
import type { DocumentPage, OtherDocument, ShownDocument } from '../../server/presenters/document-page.ts';
import { PassageLinks } from '../parts/passage-links.tsx';
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
        <p>No passage was taken over yet: begin one of your own, or put its file right first.</p>
      ) : (
        <Shown shown={page.shown} />
      )}
      <p>
        <a class="button" href="/new">
          Begin a passage of your own
        </a>
      </p>
      <BringIn page={page} />
      {page.others.length > 0 && <Others others={page.others} />}
    </main>
  );
}

function BringIn({ page: { token, bringInProblems } }: { page: DocumentPage }): JSX.Element {
  const isWrong = bringInProblems.length > 0;
  return (
    <form method="post" action="/document/bring-in#bring-in" enctype="multipart/form-data" id="bring-in">
      <h2>A passage from another machine</h2>
      {isWrong && (
        <div id="bring-in-wrong">
          <ProblemList problems={bringInProblems} />
        </div>
      )}
      <input type="hidden" name="token" value={token} />
      <p>
        <label for="bring-in-archive">The file that was saved there (.tar)</label>
      </p>
      <input
        id="bring-in-archive"
        type="file"
        name="archive"
        accept=".tar,application/x-tar"
        aria-invalid={isWrong ? 'true' : undefined}
        aria-describedby={isWrong ? 'bring-in-wrong' : undefined}
      />
      <p>
        <button>Bring it in and show it</button>
      </p>
    </form>
  );
}

function Shown({ shown }: { shown: ShownDocument }): JSX.Element {
  return (
    <section aria-labelledby="document-title">
      <h2 id="document-title">{shown.title}</h2>
      <dl class="facts">
        <Row term="Name">{shown.name}</Row>
        <Row term="Last saved">{shown.saved}</Row>
        {shown.sourceFile !== null && <Row term="Taken over from">{shown.sourceFile}</Row>}
      </dl>
      <p>{shown.sourceState}</p>
      <p class="screen-hint">
        <a href="/document/passage.tar">Save it with its forecasts and its log</a>, as one file for another machine
      </p>
      <p class="screen-hint">
        <a href="/document/passage.json">Save the passage file alone</a>
      </p>
      <PassageLinks />
      {shown.takeOver !== null && (
        <form class="once" method="post" action="/document/take-over">
          <VersionField version={shown.version} />
          <button>{shown.takeOver}</button>
        </form>
      )}
      <Versions shown={shown} />
    </section>
  );
}

/** Every state there was, and the way back to each: as a new version, so that nothing is lost. */
function Versions({ shown }: { shown: ShownDocument }): JSX.Element {
  return (
    <>
      <h2>Its versions</h2>
      {shown.versions.length > 1 && (
        <>
          <form class="once" method="post" action="/document/undo">
            <VersionField version={shown.version} />
            <button>Take the last change back</button>
          </form>
          <p>Going back makes a new version with the text of the earlier one. All versions stay.</p>
        </>
      )}
      <ul class="plain versions">
        {shown.versions.map(({ version, saved, isShown }) => (
          <li key={version}>
            Version {version}, {saved}
            {isShown ? (
              ', as it is now'
            ) : (
              <form method="post" action="/document/bring-back">
                <VersionField version={shown.version} />
                <button name="wanted" value={version} aria-label={`Back to this one: version ${version}`}>
                  Back to this one
                </button>
              </form>
            )}
          </li>
        ))}
      </ul>
    </>
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
      <h2 id="others-title">Other passages kept here</h2>
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
