import type { JSX } from 'preact';
import type { KeptLine, Notice, NoticeAction } from '../../server/presenters/notices.ts';
import { MakingLine } from './plan-making.tsx';
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
  return (
    <div class={`notice ${notice.kind}`} {...roleOf(notice)}>
      <p class="notice-title">{notice.title}</p>
      {notice.kind === 'plan-making' ? <MakingLine text={notice.text} /> : <p>{notice.text}</p>}
      {notice.link !== undefined && (
        <p>
          <a href={notice.link.href}>{notice.link.text}</a>
        </p>
      )}
      {notice.problems.length > 0 && <ProblemList problems={notice.problems} />}
      {notice.action !== null && <ActionForm action={notice.action} />}
    </div>
  );
}

/** What changes every second is not read aloud. */
function roleOf({ kind }: Notice): { tabIndex: number; autofocus: true } | { role: 'status' } | Record<string, never> {
  if (kind === 'not-saved') return { tabIndex: -1, autofocus: true };
  return kind === 'plan-making' ? {} : { role: 'status' };
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
