import type { Request, Response } from 'express';
import type { Shown } from '../../views/render.tsx';

const STYLE_COOKIE = /(?:^|;\s*)slatch_style=night(?:;|$)/;

/** How an answer is shown: in the style of the reader's cookie, whole unless htmx wants a part. */
export const shownFor = (request: Request): Shown => ({
  extent: request.get('HX-Request-Type') === 'partial' ? 'part' : 'document',
  style: STYLE_COOKIE.test(request.get('Cookie') ?? '') ? 'night' : 'day',
});

/** Sends a page or a part of it; neither is kept by the browser, for a plan grows old. */
export function sendHtml(response: Response, html: string): void {
  response.vary('HX-Request-Type').vary('Cookie').set('Cache-Control', 'no-store').type('html').send(html);
}
