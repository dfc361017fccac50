import { type RequestHandler, Router } from 'express';
import { addressOf, isLoopbackAddress, keepRequestRate } from '../access/index.ts';
import { MOST_UPLOAD_OCTETS } from '../keep-forecasts.ts';
import { bodyWithin } from './body-limit.ts';
import { PageError } from './page-error.ts';

/** Forms with files; all files of one together may be twice the largest. */
const UPLOADS = ['/new', '/forecast/upload', '/document/bring-in'] as const;
const MOST_BODY_OCTETS = 2 * MOST_UPLOAD_OCTETS;
/** Forms with files that are read at once: each is written to the disk and looked into. */
const MOST_UPLOADS_COUNT = 2;
const UPLOAD_RETRY_S = 30;

/** Refuses an address that asks too often; programs of this machine may ask as often as they like. */
export function requestRate(nowMs: () => number): RequestHandler {
  const waitMsOf = keepRequestRate(nowMs);
  return (request, response, next) => {
    const address = addressOf(request.socket);
    const waitMs = isLoopbackAddress(address) ? 0 : waitMsOf(address);
    if (waitMs === 0) return next();
    response.set('Retry-After', String(Math.ceil(waitMs / 1000)));
    return next(
      new PageError(429, 'Too often', 'More was asked from this address than one sailor can read. Wait a few seconds.'),
    );
  };
}

/** Stands before the forms with files: how much of them is taken. */
export function uploadLimits(): Router {
  const router = Router();
  const atOnce = uploadsAtOnce();
  for (const path of UPLOADS) router.post(path, bodyWithin(MOST_BODY_OCTETS), atOnce);
  return router;
}

function uploadsAtOnce(): RequestHandler {
  let openCount = 0;
  return (_request, response, next) => {
    if (openCount >= MOST_UPLOADS_COUNT) {
      response.set('Retry-After', String(UPLOAD_RETRY_S));
      return next(
        new PageError(
          503,
          'Others are sending files',
          `${MOST_UPLOADS_COUNT} forms with files are being read. Nothing of yours was taken: wait until they are done, then load this page again.`,
        ),
      );
    }
    openCount += 1;
    response.once('close', () => {
      openCount -= 1;
    });
    return next();
  };
}
