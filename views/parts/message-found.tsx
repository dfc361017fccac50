import type { JSX } from 'preact';
import type { FoundView, FoundViews } from '../../server/presenters/message-found.ts';
import type { MessagesPage } from '../../server/presenters/messages-page.ts';
import { ContentPart } from './message-content.tsx';
import { ProblemList } from './problems.tsx';
import { VersionField } from './version-field.tsx';

/** What a text held: whole messages with what can be done with them, and what cannot be used, with the reasons. */
export function FoundPart({ found, page }: { found: FoundViews; page: MessagesPage }): JSX.Element {
  const first = found.found.find(({ content }) => content.action !== null);
  return (
    <div class="message-found" role="status">
      <p>{found.summary}</p>
      {found.found.map((one) => (
        <Found key={one.fingerprint} found={one} page={page} isFirst={one === first} />
      ))}
      {found.unread.map(({ title, problems }) => (
        <article key={title} class="message-one refused">
          <h3>{title}</h3>
          <ProblemList problems={problems} />
        </article>
      ))}
      {found.damaged.length > 0 && (
        <article class="message-one refused">
          <h3>Pieces that are damaged: they are not used</h3>
          <ProblemList problems={found.damaged} />
        </article>
      )}
    </div>
  );
}

interface FoundProps {
  readonly found: FoundView;
  readonly page: MessagesPage;
  /** Of those with something to do: one button of a page is filled. */
  readonly isFirst: boolean;
}

function Found({ found, page, isFirst }: FoundProps): JSX.Element {
  const { content, refusal } = found;
  return (
    <article class={refusal === null ? 'message-one' : 'message-one refused'}>
      <h3>{found.title}</h3>
      {found.facts.map((fact) => (
        <p key={fact}>{fact}</p>
      ))}
      {refusal !== null && <ProblemList problems={[refusal]} />}
      {content.action !== null && (
        <form method="post" action="/messages/take" class="message-act">
          <VersionField version={page.version} />
          <input type="hidden" name="text" value={found.text} />
          <input type="hidden" name="fingerprint" value={found.fingerprint} />
          {page.read.asked.takesUnsigned && <input type="hidden" name="unsigned" value="yes" />}
          <button class={isFirst ? 'main-button' : undefined} name="do" value={content.action.act}>
            {content.action.button}
          </button>
          <p>{content.action.hint}</p>
        </form>
      )}
      <ContentPart content={content} level={4} />
    </article>
  );
}
