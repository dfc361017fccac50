import { failed, ok, type Problem, type Result } from '../../../lib/result/index.ts';
import { isHttp } from '../sources/expand-template.ts';
import { shownAddress } from '../sources/shown-address.ts';
import { badRedirect, cancelled, lineBroken, noAnswer } from './problems.ts';
import type { World } from './world.ts';

const MOST_REDIRECTS = 5;
const REDIRECTS = [301, 302, 303, 307, 308];

export interface AnswerQuestion {
  readonly address: string;
  readonly method: 'GET' | 'HEAD';
  readonly headers: Readonly<Record<string, string>>;
  readonly connectMs: number;
  readonly idleMs: number;
  readonly signal: AbortSignal;
}

/** An answer whose body can be read piece by piece, each within the idle time. */
export interface Answer {
  readonly status: number;
  readonly headers: Headers;
  /** Next octets; null at the end. Fails when the line breaks or is idle. */
  next(): Promise<Result<Uint8Array | null>>;
  /** Leaves the rest unread. */
  close(): void;
}

/**
 * Asks for an address and follows redirects: at most five, over HTTP and HTTPS, never from HTTPS down to HTTP.
 *
 * @returns an answer of any status that is no redirect; `fetch.redirect`; or what may pass: `fetch.line-broken`,
 *   `fetch.no-answer`; or `fetch.cancelled`
 */
export async function openAnswer(question: AnswerQuestion, world: Pick<World, 'fetch'>): Promise<Result<Answer>> {
  let { address } = question;
  for (let count = 0; count <= MOST_REDIRECTS; count++) {
    const answer = await askOnce({ ...question, address }, world);
    if (!answer.ok || !REDIRECTS.includes(answer.value.status)) return answer;
    answer.value.close();
    const next = redirected(address, answer.value.headers.get('location'));
    if (!next.ok) return next;
    address = next.value;
  }
  return failed(badRedirect(question.address, `It is passed on more than ${MOST_REDIRECTS} times.`));
}

function redirected(from: string, location: string | null): Result<string> {
  if (location === null) return failed(badRedirect(from, 'It is passed on, and not told where to.'));
  let to: string;
  try {
    to = new URL(location, from).href;
  } catch {
    return failed(
      badRedirect(from, `It is passed on to "${shownAddress(location).slice(0, 80)}", which is no address.`),
    );
  }
  if (!isHttp(to)) return failed(badRedirect(from, `It is passed on to ${shownAddress(to).slice(0, 80)}.`));
  if (from.toLowerCase().startsWith('https:') && !to.startsWith('https:'))
    return failed(badRedirect(from, 'It is passed on from HTTPS to HTTP, which anyone on the way could change.'));
  return ok(to);
}

async function askOnce(question: AnswerQuestion, world: Pick<World, 'fetch'>): Promise<Result<Answer>> {
  const { address, signal } = question;
  const watch = watchFor(question);
  try {
    const response = await watch.within(question.connectMs, () =>
      world.fetch(address, {
        method: question.method,
        // Octets as they are in the file: places and lengths must be its own.
        headers: { 'accept-encoding': 'identity', ...question.headers },
        redirect: 'manual',
        signal: watch.signal,
      }),
    );
    const reader = response.body?.getReader();
    return ok({
      status: response.status,
      headers: response.headers,
      next: async () => {
        if (reader === undefined) return ok(null);
        try {
          const { done, value } = await watch.within(question.idleMs, () => reader.read());
          if (done) watch.end();
          return ok(done ? null : value);
        } catch (error) {
          watch.end();
          return failed(watch.problemOf(error));
        }
      },
      close: () => {
        watch.stop();
      },
    });
  } catch (error) {
    watch.end();
    return failed(signal.aborted ? cancelled(address) : watch.problemOf(error));
  }
}

/** Watches one request: its own signal, aborted by the user's or by time. */
function watchFor({ address, signal: users }: AnswerQuestion) {
  const own = new AbortController();
  let lateMs: number | null = null;
  const stop = (): void => {
    own.abort();
  };
  if (users.aborted) stop();
  users.addEventListener('abort', stop);
  const end = (): void => {
    users.removeEventListener('abort', stop);
  };
  return {
    signal: own.signal,
    within: async <T>(timeoutMs: number, work: () => Promise<T>): Promise<T> => {
      const timer = setTimeout(() => {
        lateMs = timeoutMs;
        own.abort();
      }, timeoutMs);
      try {
        return await work();
      } finally {
        clearTimeout(timer);
      }
    },
    end,
    stop: () => {
      end();
      stop();
    },
    problemOf: (error: unknown): Problem => {
      if (users.aborted) return cancelled(address);
      return lateMs === null ? lineBroken(address, reasonOf(error)) : noAnswer(address, lateMs);
    },
  };
}

/** The innermost reason: the outer ones only say that fetching failed. */
function reasonOf(error: unknown): string {
  let inner = error;
  while (inner instanceof Error && inner.cause instanceof Error) inner = inner.cause;
  const text = inner instanceof Error ? inner.message : String(inner);
  return text.replace(/\.$/, '') || 'no reason given';
}
