import type { Request, RequestHandler } from 'express';
import { doorOf } from './door.ts';
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
    if (hostsOf(request).every((host) => allowed().includes(host))) return next();
    return next(
      new PageError(
        421,
        'Not this address',
        'This server answers only under the address it printed when it was started. Open that one.',
      ),
    );
  };

/**
 * Every name a request is meant for, in small letters: that of its `Host`, and of its address where that is absolute (RFC
 * 9112 §3.2.2). Two `Host` fields, or none, are no name (§3.2).
 */
function hostsOf({ rawHeaders, headers, url }: Request): readonly string[] {
  const fieldCount = rawHeaders.filter((name, index) => index % 2 === 0 && name.toLowerCase() === 'host').length;
  const [, scheme, authority] = /^([a-z][a-z0-9+.-]*):\/\/([^/?#]*)/i.exec(url) ?? [];
  const ofAddress = authority === undefined ? [] : [scheme?.toLowerCase() === 'http' ? authority : ''];
  return [fieldCount === 1 ? (headers.host ?? '') : '', ...ofAddress].map((host) => host.toLowerCase());
}

const METHODS = ['GET', 'HEAD', 'POST'];

/** Refuses what no page and no form of ours sends; another site's question what it may send ends here too. */
export const onlyMethods: RequestHandler = (request, response, next) => {
  if (METHODS.includes(request.method)) return next();
  response.set('Allow', METHODS.join(', '));
  return next(new PageError(405, 'Not done here', 'Pages are read and forms are sent here, nothing else.'));
};

const SAFE_METHODS = ['GET', 'HEAD'];

/** Changes are accepted from our own pages and from programs, not from pages of others. */
export const onlyOwnForms: RequestHandler = (request, _response, next) => {
  if (SAFE_METHODS.includes(request.method) || isOwn(request)) return next();
  return next(
    new PageError(
      403,
      'Refused',
      'This came from a page that is not ours, so nothing was changed. Open the page here and send its form from there.',
    ),
  );
};

/**
 * Browsers say where a request comes from in `Sec-Fetch-Site`, and where that is left out (plain HTTP to another machine,
 * older ones) in `Origin`. Programs say neither; with a session, which only browsers have, neither is no answer.
 */
function isOwn(request: Request): boolean {
  const { 'sec-fetch-site': site, origin, host } = request.headers;
  if (site !== undefined) return site === 'same-origin' || site === 'none';
  if (origin === undefined) return doorOf(request) !== 'open';
  return origin.toLowerCase() === `http://${String(host).toLowerCase()}`;
}
