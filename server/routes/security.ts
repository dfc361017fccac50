import type { RequestHandler } from 'express';
import { PageError } from './page-error.ts';

const POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self'",
  "connect-src 'self'",
  "font-src 'self'",
  "form-action 'self'",
  "base-uri 'none'",
  "frame-ancestors 'none'",
].join('; ');

/** Headers of every answer: nothing from elsewhere is loaded, framed or told where we were. */
export const securityHeaders: RequestHandler = (_request, response, next) => {
  response.set({
    'Content-Security-Policy': POLICY,
    'X-Content-Type-Options': 'nosniff',
    // `no-referrer` would make browsers send `Origin: null` with forms, and the rule below refuse them.
    'Referrer-Policy': 'same-origin',
    'Cross-Origin-Opener-Policy': 'same-origin',
    'Cross-Origin-Resource-Policy': 'same-origin',
  });
  next();
};

/** Refuses names that are not this server's, so that a foreign name pointed at this machine gets nothing. */
export const onlyHosts =
  (allowed: () => readonly string[]): RequestHandler =>
  (request, _response, next) => {
    if (allowed().includes(request.headers.host ?? '')) return next();
    return next(
      new PageError(
        421,
        'Not this address',
        'This server answers only under the address it printed when it was started. Open that one.',
      ),
    );
  };

const SAFE_METHODS = ['GET', 'HEAD', 'OPTIONS'];

/** Changes are accepted from our own pages and from programs, not from pages of others. */
export const onlyOwnForms: RequestHandler = (request, _response, next) => {
  if (SAFE_METHODS.includes(request.method) || isOwn(request.headers)) return next();
  return next(
    new PageError(
      403,
      'Refused',
      'This came from a page that is not ours, so nothing was changed. Open the page here and send its form from there.',
    ),
  );
};

/** Browsers say where a request comes from in `Sec-Fetch-Site`, older ones in `Origin`; programs say neither. */
function isOwn(headers: Readonly<Record<string, string | string[] | undefined>>): boolean {
  const { 'sec-fetch-site': site, origin, host } = headers;
  if (site !== undefined) return site === 'same-origin' || site === 'none';
  return origin === undefined || origin === `http://${String(host)}`;
}
