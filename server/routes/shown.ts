import type { Request, Response } from 'express';
import type { Shown } from '../../views/render.tsx';
import { sendCompressed } from '../compress.ts';
import type { Deps } from '../deps.ts';
import { lastForPlans } from '../keep-log.ts';
import { HOURS_SCRIPT_PATH, NIGHT_SCRIPT_PATH, SCRIPT_PATH, STYLES_PATH, versionedPath } from '../static-files.ts';
import { keptLine, type Notice, noticesOf } from '../presenters/notices.ts';
import { doorOf } from './door.ts';

const STYLE_COOKIE = /(?:^|;\s*)slatch_style=night(?:;|$)/;

const pageFiles = {
  styles: versionedPath(STYLES_PATH),
  script: versionedPath(SCRIPT_PATH),
  nightScript: versionedPath(NIGHT_SCRIPT_PATH),
  hoursScript: versionedPath(HOURS_SCRIPT_PATH),
};

/** How an answer is shown: in the style of the reader's cookie, whole unless htmx wants a part. */
export const plainlyShown = (request: Request): Shown => ({
  extent: request.get('HX-Request-Type') === 'partial' ? 'part' : 'document',
  style: STYLE_COOKIE.test(request.get('Cookie') ?? '') ? 'night' : 'day',
  files: pageFiles,
  door: doorOf(request),
});

/**
 * The same with what has to be said of the passage, and which state of it is kept; a part has no room for it.
 *
 * @param first notices that stand before all others
 */
export async function shownFor(deps: Deps, request: Request, first: readonly Notice[] = []): Promise<Shown> {
  const plain = plainlyShown(request);
  if (plain.extent === 'part') return plain;
  const document = await deps.documentInfo();
  // Without a document there is no plan either, and the page says why.
  if (!document.ok) return { ...plain, notices: first };
  const { saved, back, shown } = request.query;
  const planned = deps.plannedDocument();
  const log = deps.passageLog();
  const notices = noticesOf(document.value, {
    standing: deps.planStanding(),
    planned,
    // A log that cannot be read is told on its page.
    logNumber: log.ok ? lastForPlans(log.value.entries) : (planned?.logNumber ?? 0),
    nowEpochMs: deps.nowEpochMs(),
    savedVersion: typeof saved === 'string' ? saved : null,
    backTo: typeof back === 'string' && /^\d{1,9}$/.test(back) ? Number(back) : null,
    isOnlyShown: shown !== undefined,
  });
  return { ...plain, notices: [...first, ...notices], kept: keptLine(document.value) };
}

/** Sends a page or a part of it; neither is kept by the browser, for a plan grows old. */
export function sendHtml(response: Response, html: string): void {
  response.vary('HX-Request-Type').vary('Cookie').set('Cache-Control', 'no-store').type('html');
  sendCompressed(response, html);
}
