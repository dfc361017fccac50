import type { JSX } from 'preact';
import type { MessagesPage } from '../../server/presenters/messages-page.ts';

/** Every message that was written here or taken over, the newest first. */
export function MessageList({ page }: { page: MessagesPage }): JSX.Element {
  return (
    <section class="message-list" id="list" aria-labelledby="list-title">
      <h2 id="list-title">
        The list <small>{page.messageCount === 1 ? '1 message' : `${page.messageCount} messages`}</small>
      </h2>
      {page.rows.length === 0 ? (
        <p>Nothing yet. What is written here, and what is taken over, stands here and stays.</p>
      ) : (
        <ol>
          {page.rows.map((row) => (
            <li key={row.number}>
              <p class="message-when">
                <b>{row.when}</b> <small>{row.utc}</small>
              </p>
              <div>
                <p>
                  <a href={row.href}>{row.title}</a>{' '}
                  <small>
                    {[`message ${row.number}`, row.direction, row.of].filter((text) => text !== '').join(', ')}
                  </small>
                </p>
                <p class="message-first">{row.firstWords}</p>
              </div>
            </li>
          ))}
        </ol>
      )}
      <p class="message-pages">
        {page.newerHref !== null && <a href={page.newerHref}>Newer messages</a>}
        {page.olderHref !== null && <a href={page.olderHref}>Older messages</a>}
      </p>
    </section>
  );
}
