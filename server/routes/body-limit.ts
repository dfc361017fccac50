import express, { type RequestHandler } from 'express';

/** More was sent than is taken; the error page says how much that is. */
class TooLarge extends Error {
  readonly status = 413;
  /** What was announced [octets]; absent: nothing was. */
  readonly length: number | undefined;
  /** What is taken [octets]. */
  readonly limit: number;

  constructor(limit: number, length?: number) {
    super('too large');
    this.limit = limit;
    this.length = length;
  }
}

/** Refuses a body at its announcement, or as soon as more has come; what follows it is not waited for. */
export const bodyWithin =
  (mostOctets: number): RequestHandler =>
  (request, _response, next) => {
    const lengthOctets = Number(request.headers['content-length'] ?? 0);
    next(lengthOctets > mostOctets ? new TooLarge(mostOctets, lengthOctets) : undefined);
  };

/** Reads the body of a form of at most so many octets and fields. */
export function formWithin(mostOctets: number, mostFieldsCount: number): RequestHandler {
  const announced = bodyWithin(mostOctets);
  const parse = express.urlencoded({ extended: false, limit: mostOctets, parameterLimit: mostFieldsCount });
  return (request, response, next) => {
    let isOver = false;
    const once = (error?: unknown): void => {
      if (isOver) return;
      isOver = true;
      next(error);
    };
    announced(request, response, (refused?: unknown) => {
      if (refused !== undefined) return once(refused);
      let comeOctets = 0;
      // The parser would read a body without announced length to its end before it refuses it.
      if (request.headers['transfer-encoding'] !== undefined)
        request.on('data', (chunk: Buffer) => {
          comeOctets += chunk.length;
          if (comeOctets > mostOctets) once(new TooLarge(mostOctets));
        });
      return parse(request, response, once);
    });
  };
}
