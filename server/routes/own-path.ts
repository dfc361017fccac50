/** A path on this server; anything else is the passage. Nothing a browser would take for another host is one. */
export const ownPath = (path: string): string => (/^\/(?![/\\])[\x21-\x7E]*$/.test(path) ? path : '/');
