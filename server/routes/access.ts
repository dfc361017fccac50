import { type CookieOptions, type Request, type RequestHandler, type Response, Router } from 'express';
import { renderAccess } from '../../views/render.tsx';
import { type Access, addressOf, MOST_AGE_MS, type NotRight } from '../access/index.ts';
import type { Deps } from '../deps.ts';
import { accessPage, type AccessShown, waitS } from '../presenters/access-page.ts';
import { isPublicFile } from '../static-files.ts';
import { formWithin } from './body-limit.ts';
import { setDoor } from './door.ts';
import { formOf } from './form.ts';
import { ownPath } from './own-path.ts';
import { pageBefore } from './page-before.ts';
import { plainlyShown, sendHtml } from './shown.ts';

const KEY_PATH = '/key';
const LEAVE_PATH = '/key/leave';
const KEY_PATHS: readonly string[] = [KEY_PATH, LEAVE_PATH];
const SESSION_COOKIE = 'slatch_id';
/** As `Sessions` makes them. */
const SESSION_ID = /^[\w-]{43}$/;
/** A browser has one; others of this host may have put some beside it. */
const MOST_IDS_COUNT = 8;
const keyForm = formWithin(4096, 10);

/** Whoever is refused before he is asked for the key is told no more than he who lacks it. */
export const closedAtFirst =
  ({ access }: Pick<Deps, 'access'>): RequestHandler =>
  (request, _response, next) => {
    if (access !== null) setDoor(request, 'closed');
    next();
  };

/**
 * Lets nobody by who has neither a session nor the key: whatever the address, the answer is the same page, so that nothing
 * can be told from it.
 */
export const accessGate =
  ({ access }: Pick<Deps, 'access'>): RequestHandler =>
  (request, response, next) => {
    if (access === null) return next();
    if (sessionIds(request).some((id) => access.isOpen(id))) {
      setDoor(request, 'open');
      return next();
    }
    const [, key] = /^Bearer +(\S.*)$/i.exec(request.get('Authorization') ?? '') ?? [];
    const tried = key === undefined ? null : access.tryKey(key, addressOf(request.socket));
    if (tried?.kind === 'right') {
      setDoor(request, null);
      return next();
    }
    if (tried === null && isFree(request)) return next();
    return refuse(request, response, tried);
  };

/** What is answered without the key: asking for it, what its page is dressed with, and day or night. */
const isFree = ({ method, path }: Request): boolean =>
  KEY_PATHS.includes(path) || (method === 'POST' ? path === '/style' : isPublicFile(path));

/** The page on which the key is given, and what its form and that of signing out do. */
export function accessRoutes({ access }: Pick<Deps, 'access'>): Router {
  return Router()
    .get(KEY_PATH, (request, response) => {
      const { to } = request.query;
      const isIn = access === null || sessionIds(request).some((id) => access.isOpen(id));
      const toHref = ownPath(typeof to === 'string' ? to : '/');
      if (access === null) return send(request, response, { kind: 'none' });
      return send(request, response, isIn ? { kind: 'in' } : { kind: 'ask', toHref, said: null });
    })
    .post(KEY_PATH, keyForm, (request, response) => signIn(access, request, response))
    .post(LEAVE_PATH, keyForm, (request, response) => {
      for (const id of sessionIds(request)) access?.signOut(id);
      response.clearCookie(SESSION_COOKIE, cookieOptions(request));
      response.redirect(303, KEY_PATH);
    });
}

function signIn(access: Access | null, request: Request, response: Response): void {
  const form = formOf(request);
  const toHref = ownPath(form.text('to'));
  if (access === null) return response.redirect(303, toHref);
  const tried = access.signIn(form.text('key'), addressOf(request.socket));
  if (tried.kind !== 'in') return sendRefusal(request, response, { tried, toHref });
  for (const id of sessionIds(request)) access.signOut(id);
  response.cookie(SESSION_COOKIE, tried.sessionId, { ...cookieOptions(request), maxAge: MOST_AGE_MS });
  return response.redirect(303, toHref);
}

/** Where a page or form was refused, the way leads back to it; a form has to be sent again. */
function refuse(request: Request, response: Response, tried: NotRight | null): void {
  const isRead = request.method === 'GET' || request.method === 'HEAD';
  const isPart = request.get('HX-Request') !== undefined;
  const toHref = isRead && !isPart ? ownPath(request.originalUrl) : pageBefore(request);
  if (tried !== null || isRead) return sendRefusal(request, response, { tried, toHref });
  answerUnknown(response, 401);
  return send(request, response, { kind: 'not-sent', toHref });
}

interface Refusal {
  /** null: no key was given. */
  readonly tried: NotRight | null;
  readonly toHref: string;
}

function sendRefusal(request: Request, response: Response, { tried, toHref }: Refusal): void {
  const isWaiting = tried?.kind === 'wait';
  if (isWaiting) response.set('Retry-After', String(waitS(tried.waitMs)));
  answerUnknown(response, isWaiting ? 429 : 401);
  return send(request, response, { kind: 'ask', toHref, said: tried });
}

/** RFC 9110 §11.6.1 wants a challenge with 401; RFC 6750 §3 is the one programs can answer. */
function answerUnknown(response: Response, status: 401 | 429): void {
  response.status(status);
  if (status === 401) response.set('WWW-Authenticate', 'Bearer');
}

const send = (request: Request, response: Response, shown: AccessShown): void =>
  sendHtml(response, renderAccess(accessPage(shown), plainlyShown(request)));

/**
 * Strict: no page of others leads into the passage, and typed or bookmarked addresses carry it all the same. Secure where
 * the browser itself speaks HTTPS, by something that stands before this server.
 */
const cookieOptions = (request: Request): CookieOptions => ({
  httpOnly: true,
  sameSite: 'strict',
  path: '/',
  secure: /^https:/i.test(request.get('Origin') ?? ''),
});

/** Ids in the cookies of a request, the session's own among them. */
function sessionIds(request: Request): readonly string[] {
  const cookies = (request.get('Cookie') ?? '').split(';').map((pair) => pair.trim().split('='));
  const ids = cookies.flatMap(([name, value = '']) =>
    name === SESSION_COOKIE && SESSION_ID.test(value) ? [value] : [],
  );
  return ids.slice(0, MOST_IDS_COUNT);
}
