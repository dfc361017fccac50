/** Every page there is, found by following links, as a reader would. */
import { ask } from './ask.ts';

export interface FoundPage {
  readonly path: string;
  /** Path without what differs from one job, number or hour to the next. */
  readonly shape: string;
  /** The first request of it since the server began [ms]. */
  readonly coldMs: number;
}

/** Pages alike are not all asked for. */
const MOST_OF_A_SHAPE = 2;

/** Pages nothing links to: found by pointing, typing or reloading. */
const UNLINKED = ['/plan/making', '/forecast/fetch', '/no-such-page', '/favicon.ico'];

/**
 * Follows links from the first page. The first request of each page is timed.
 *
 * @param names ids of the passage, which stand for one another in paths
 * @param known shapes that need not be asked for again
 */
export async function findPages(
  base: string,
  names: ReadonlySet<string>,
  known: ReadonlySet<string> = new Set(),
): Promise<readonly FoundPage[]> {
  const waiting = ['/', ...UNLINKED];
  const seen = new Set(waiting);
  const counts = new Map<string, number>();
  const found: FoundPage[] = [];
  for (let path = waiting.shift(); path !== undefined; path = waiting.shift()) {
    const shape = shapeOf(path, names);
    const count = (counts.get(shape) ?? 0) + 1;
    if (count > MOST_OF_A_SHAPE) continue;
    counts.set(shape, count);
    // One after the other: each is timed.
    // oxlint-disable-next-line no-await-in-loop
    const { status, type, elapsedMs, body } = await ask(base, path);
    if (status >= 400 && path !== '/no-such-page') throw new Error(`${path} is linked and answers ${status}`);
    if (!known.has(shape)) found.push({ path, shape, coldMs: elapsedMs });
    if (!type.startsWith('text/html') && !type.startsWith('text/css')) continue;
    for (const link of linksIn(body.toString(), base + path)) {
      if (!seen.has(link)) waiting.push(link);
      seen.add(link);
    }
  }
  return found;
}

/** `/jobs/stitch/edit?step=2` → `/jobs/*` + `/edit?step` */
export function shapeOf(path: string, names: ReadonlySet<string>): string {
  const { pathname, searchParams } = new URL(path, 'http://a');
  const place = pathname
    .split('/')
    .map((part) => (names.has(decodeURIComponent(part)) || /^\d+$/.test(part) ? '*' : part))
    .join('/');
  const keys = [...searchParams.keys()].toSorted().join('&');
  return keys === '' ? place : `${place}?${keys}`;
}

/** Addresses of this server on a page or in a style sheet, in order, without fragments. */
function linksIn(text: string, from: string): readonly string[] {
  const written = [...text.matchAll(/(?:href|src|hx-get)="([^"]*)"|url\((\/[^)]*)\)/g)].map(
    ([, attribute, address]) => attribute ?? address ?? '',
  );
  return written
    .map((address) => new URL(address.replaceAll('&amp;', '&'), from))
    .filter(({ origin }) => origin === new URL(from).origin)
    .map(({ pathname, search }) => pathname + search);
}
