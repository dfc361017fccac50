import type { JSX } from 'preact';
import type { KeptLine, Notice, NoticeAction } from '../../server/presenters/notices.ts';
import { ProblemList } from './problems.tsx';
import { VersionField } from './version-field.tsx';

/** What has to be said above a page, whatever the page is. */
export function Notices({ notices }: { notices: readonly Notice[] }): JSX.Element | null {
  if (notices.length === 0) return null;
  return (
    <section class="notices" aria-label="Notices">
      {notices.map((notice) => (
        <NoticePart key={notice.kind} notice={notice} />
      ))}
    </section>
  );
}

/** The reader is taken to what was not saved: by keyboard and aloud it comes first. */
function NoticePart({ notice }: { notice: Notice }): JSX.Element {
  const isRefusal = notice.kind === 'not-saved';
  return (
    <div class={`notice ${notice.kind}`} {...(isRefusal ? { tabIndex: -1, autofocus: true } : { role: 'status' })}>
      <p class="notice-title">{notice.title}</p>
      <p>{notice.text}</p>
      {notice.problems.length > 0 && <ProblemList problems={notice.problems} />}
      {notice.action !== null && <ActionForm action={notice.action} />}
    </div>
  );
}

function ActionForm({ action }: { action: NoticeAction }): JSX.Element {
  return (
    <form method="post" action={action.path}>
      {action.version !== null && <VersionField version={action.version} />}
      <button>{action.button}</button>
    </form>
  );
}

/** Under every page: which state of which passage is kept. */
export function KeptLinePart({ kept }: { kept: KeptLine }): JSX.Element {
  return (
    <footer class="kept">
      <p>
        <a href="/document">{kept.passage}</a>, {kept.source}
      </p>
    </footer>
  );
}
