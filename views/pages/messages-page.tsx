import type { JSX } from 'preact';
import type { MessageKeyPage, MessagePage } from '../../server/presenters/message-page.ts';
import type { MessagesPage, MessagesPages } from '../../server/presenters/messages-page.ts';
import { ContentPart, CopyButton, PartText } from '../parts/message-content.tsx';
import { FoundPart } from '../parts/message-found.tsx';
import { MessageList } from '../parts/message-list.tsx';
import { WritePart } from '../parts/message-write.tsx';
import { ProblemList } from '../parts/problems.tsx';
import { VersionField } from '../parts/version-field.tsx';
import { PlanDocument } from './document.tsx';
import type { Around } from './frame.tsx';

export function MessagesDocument({ page, around }: { page: MessagesPages; around: Around }): JSX.Element {
  return (
    <PlanDocument page={page} title={titleOf(page)} around={around} current="messages">
      <MessagesMain page={page} />
    </PlanDocument>
  );
}

function titleOf(page: MessagesPages): string {
  if (page.kind === 'message') return page.title;
  return page.kind === 'messages' ? 'Messages' : 'Key to the messages';
}

/** The part that changes: all of the page but its head. */
export function MessagesMain({ page }: { page: MessagesPages }): JSX.Element {
  if (page.kind === 'message') return <OneMain page={page} />;
  return page.kind === 'messages' ? <AllMain page={page} /> : <KeyMain page={page} />;
}

function AllMain({ page }: { page: MessagesPage }): JSX.Element {
  return (
    <main id="passage" class="messages-page">
      <section aria-labelledby="messages-title">
        <h1 class="what" id="messages-title">
          Messages to and from the shore
        </h1>
        <p>
          {page.hasKey
            ? 'What is written here is signed with the key on board, and what comes in is held against it.'
            : 'No key is on board: what is written here is not signed, and nobody can tell who wrote what comes in. The same key on both sides mends that: start the program with --message-key FILE.'}
        </p>
        <p>
          <a href="/messages/key">The key to the fields</a>, to be printed and kept beside the radio.
        </p>
        {page.problems.length > 0 && <ProblemList problems={page.problems} />}
      </section>
      <WritePart page={page} />
      <ReadPart page={page} />
      <MessageList page={page} />
    </main>
  );
}

function ReadPart({ page }: { page: MessagesPage }): JSX.Element {
  const { asked, found, problems } = page.read;
  return (
    <section aria-labelledby="read-title" id="read">
      <h2 id="read-title">Read what came in</h2>
      {problems.length > 0 && <ProblemList problems={problems} />}
      {found !== null && <FoundPart found={found} page={page} />}
      <form method="post" action="/messages/read#read" class="message-form">
        <label for="read-text">Text as it came: a whole mail, several messages, parts in any order</label>
        <textarea id="read-text" name="text" rows={6} spellcheck={false}>
          {asked.text}
        </textarea>
        {page.hasKey && (
          <label class="message-tick">
            <input type="checkbox" name="unsigned" value="yes" checked={asked.takesUnsigned} />
            <span>
              Read it although it is not signed <small>only where you know who wrote it</small>
            </span>
          </label>
        )}
        <label class="message-tick">
          <input type="checkbox" name="capitals" value="yes" checked={asked.isCapitals} />
          <span>
            Read it as capitals <small>where its letters became small on the way; not for a digest</small>
          </span>
        </label>
        <button>Read it</button>
        <p class="message-hint">
          Reading takes nothing over. Where a part is missing, leave the text and add the part below.
        </p>
      </form>
    </section>
  );
}

function OneMain({ page }: { page: MessagePage }): JSX.Element {
  const { content } = page;
  return (
    <main id="passage" class="messages-page">
      <section aria-labelledby="message-title">
        <p>
          <a class="message-back" href="/messages#list">
            All messages
          </a>
        </p>
        <h1 class="what" id="message-title">
          {page.title}
        </h1>
        {page.facts.map((fact) => (
          <p key={fact}>{fact}</p>
        ))}
        {page.problems.length > 0 && <ProblemList problems={page.problems} />}
        {content.action !== null && (
          <form method="post" action={`/messages/${page.number}/take`} class="message-act">
            <VersionField version={page.version} />
            <button class="main-button" name="do" value={content.action.act}>
              {content.action.button}
            </button>
            <p>{content.action.hint}</p>
          </form>
        )}
      </section>
      <section aria-labelledby="parts-title">
        <h2 id="parts-title">{page.isSent ? 'To be sent, each part by itself' : 'As it came'}</h2>
        {page.parts.map((part, index) => (
          <PartText key={part.label} part={part} id={`part-${index + 1}`} />
        ))}
        {page.parts.length > 1 && (
          <CopyButton
            ids={page.parts.map((_, index) => `part-${index + 1}`)}
            text={`Copy all ${page.parts.length} parts, a line each`}
            name={`Copy all ${page.parts.length} parts, a line each`}
          />
        )}
        {page.isSent && (
          <>
            <h2>For when the key to the fields is lost</h2>
            <p>One plain line. It carries no check and no signature, and the program does not read it.</p>
            <PartText part={page.backup} id="plain-line" />
          </>
        )}
      </section>
      <section class="message-said">
        <ContentPart content={content} level={2} />
      </section>
      <script src="/static/copy.js" defer />
    </main>
  );
}

const KeyMain = ({ page }: { page: MessageKeyPage }): JSX.Element => (
  <main id="passage" class="messages-page of-key">
    <section aria-labelledby="key-title">
      <p>
        <a class="message-back" href="/messages">
          Messages
        </a>
      </p>
      <h1 class="what" id="key-title">
        The key to the fields
      </h1>
      <p class="screen-hint">Print this page. With it a message can be read by eye, but for a digest.</p>
      <div class="scroll" tabIndex={0} role="region" aria-label="Its lines, to be moved sideways">
        <pre class="message-key">{page.text}</pre>
      </div>
    </section>
  </main>
);
