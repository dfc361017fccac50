/** Whether an answer is one of ours: a status that is no mistake, a page in plain words, no word of a machine. */
import type { Exchange } from './exchange.ts';
import type { SentRequest } from './sent-request.ts';

/** Ours to give: not there now, and no room for it. */
const BUSY = [503, 507];
const MACHINE_WORDS = [
  '[object Object]',
  'node_modules',
  'TypeError',
  'RangeError',
  'SyntaxError',
  'ZodError',
  'Cannot read prop',
];
const STACK = /\bat \S+ \((?:file:|node:|\/)|\.ts:\d+/;
const BARE_WORDS = /\b(?:undefined|NaN)\b/g;

/** Words of a machine that a text holds, and anybody may call a thing. */
export const bareWordsIn = (text: string): readonly string[] => text.match(BARE_WORDS) ?? [];

/**
 * The fault of an answer, or null.
 *
 * @param statuses gets what came
 * @param kept words of a machine that were sent before and taken: a page shows them as the names they are
 */
export function answerFault(
  { octets, isWhole }: SentRequest,
  { answer, isStuck }: Exchange,
  statuses: Set<string>,
  kept: ReadonlySet<string> = new Set(),
): string | null {
  if (isStuck) return 'no end within 15 s';
  if (answer.length === 0) {
    statuses.add('closed');
    return isWhole ? 'the connection was closed without an answer' : null;
  }
  const text = answer.toString('utf8');
  const [, status = ''] = /^HTTP\/1\.1 (\d{3}) /.exec(text) ?? [];
  if (status === '') return `no answer of HTTP: ${text.slice(0, 100)}`;
  statuses.add(status);
  const code = Number(status);
  if (code >= 500 && !BUSY.includes(code)) return `status ${status}`;
  const [head, body] = halves(text);
  if (code >= 400 && body !== '' && !isOurs(head, body))
    return `a refusal that is no page of ours: ${body.slice(0, 200)}`;
  return wordsFault(body, octets.toString('utf8'), kept);
}

function halves(text: string): [string, string] {
  const at = text.indexOf('\r\n\r\n');
  const body = at < 0 ? '' : text.slice(at + 4);
  // A body of chunks that holds none.
  return [at < 0 ? text : text.slice(0, at), body === '0\r\n\r\n' ? '' : body];
}

const isOurs = (head: string, body: string): boolean =>
  /content-type: text\/html/i.test(head)
    ? /<(?:html|main|section|div|p|form|article)\b/.test(body)
    : /content-type: text\/plain/i.test(head);

/** Tags and what they carry are left out: fields show what was sent. */
function wordsFault(body: string, sent: string, kept: ReadonlySet<string>): string | null {
  const shown = body.replaceAll(
    /<(?:textarea|option|script|style)\b[\s\S]*?<\/(?:textarea|option|script|style)>|<[^>]*>/g,
    ' ',
  );
  const word = MACHINE_WORDS.find((one) => shown.includes(one) && !sent.includes(one));
  if (word !== undefined) return `the page says "${around(shown, shown.indexOf(word))}"`;
  const stack = STACK.exec(shown);
  if (stack !== null && !sent.includes('.ts:'))
    return `the page shows where our program stands: "${around(shown, stack.index)}"`;
  const bare = bareWordsIn(shown).find((one) => !sent.includes(one) && !kept.has(one));
  return bare === undefined ? null : `the page says "${around(shown, shown.indexOf(bare))}"`;
}

const around = (text: string, at: number): string => text.slice(Math.max(0, at - 80), at + 60).replaceAll(/\s+/g, ' ');
