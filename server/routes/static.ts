import { type Request, type RequestHandler, type Response, Router } from 'express';
import { type StaticFile, staticFiles } from '../static-files.ts';

/** A year [seconds], as long as RFC 2616 §14.21 wanted anything kept; `immutable`: RFC 8246. */
const FOR_GOOD = 'public, max-age=31536000, immutable';

/** Styles, script and fonts. Under the address of their version they are kept; under any other browsers ask again. */
export function staticRoutes(): Router {
  const router = Router();
  for (const [path, file] of staticFiles()) router.get(path, sending(file));
  return router;
}

const sending =
  (file: StaticFile): RequestHandler =>
  (request: Request, response: Response) => {
    const packed = request.acceptsEncodings(['gzip', 'identity']) === 'gzip' ? file.gzipped : null;
    if (packed !== null) response.set('Content-Encoding', 'gzip');
    response
      .vary('Accept-Encoding')
      .set({
        'Content-Type': file.type,
        'Cache-Control': request.query['v'] === file.version ? FOR_GOOD : 'no-cache',
        // Two forms of the same file are two representations (RFC 9110 §8.8.3.3).
        ETag: packed === null ? `"${file.version}"` : `"${file.version}-gzip"`,
      })
      .send(packed ?? file.octets);
  };
