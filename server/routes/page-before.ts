import type { Request } from 'express';

/** Path of the page that held a form, on this server; else the passage. */
export function pageBefore(request: Request): string {
  const referer = request.get('Referer') ?? '';
  const own = `http://${request.get('Host') ?? ''}/`;
  return referer.startsWith(own) ? `/${referer.slice(own.length).replace(/^[/\\]+/, '')}` : '/';
}
