import { type RequestHandler, Router } from 'express';
import { addressOf, isLoopbackAddress, keepRequestRate } from '../access/index.ts';
import { MOST_UPLOAD_OCTETS } from '../keep-forecasts.ts';
import { bodyWithin } from './body-limit.ts';
import { PageError } from './page-error.ts';

/** Forms with files; all files of one together may be twice the largest. */
const UPLOADS = ['/new', '/forecast/upload', '/document/bring-in'] as const;
const MOST_BODY_OCTETS = 2 * MOST_UPLOAD_OCTETS;
/** Files that are put together for whoever asks. */
const PACKED = ['/document/passage.tar'] as const;
/** Forms with files that are read at once, and files that are packed at once: each takes the disk. Ours. */
const MOST_AT_ONCE_COUNT = 2;
const RETRY_S = 30;

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

/** Stands before the forms with files, and before files that are packed: how much is taken, and how many at once. */
export function uploadLimits(): Router {
  const router = Router();
  const [reading, packing] = [fewAtOnce(READING), fewAtOnce(PACKING)];
  for (const path of UPLOADS) router.post(path, bodyWithin(MOST_BODY_OCTETS), reading);
  for (const path of PACKED) router.get(path, packing);
  return router;
}

/** Title and text of a refusal. */
type Refusal = readonly [title: string, text: string];

const READING: Refusal = [
  'Others are sending files',
  `${MOST_AT_ONCE_COUNT} forms with files are being read. Nothing of yours was taken: wait until they are done, then load this page again.`,
];
const PACKING: Refusal = [
  'Others are saving the passage',
  `It is being put into one file ${MOST_AT_ONCE_COUNT} times already. Wait until that is done, then load this page again.`,
];

function fewAtOnce([title, text]: Refusal): RequestHandler {
  let openCount = 0;
  return (_request, response, next) => {
    if (openCount >= MOST_AT_ONCE_COUNT) {
      response.set('Retry-After', String(RETRY_S));
      return next(new PageError(503, title, text));
    }
    openCount += 1;
    response.once('close', () => {
      openCount -= 1;
    });
    return next();
  };
}
