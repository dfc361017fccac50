/** `Content-Range: bytes 100-199/1000` (RFC 9110 §14.4); `endOctet` is the first after it, null where not said. */
export interface ContentRange {
  readonly startOctet: number | null;
  readonly endOctet: number | null;
  readonly wholeOctets: number | null;
}

/** What an answer says of its part, or null when it says nothing that can be understood. */
export function readContentRange(header: string | null): ContentRange | null {
  const [, span, from, to, whole] =
    /^bytes\s+((\d{1,15})-(\d{1,15})|\*)\/(\d{1,15}|\*)$/i.exec(header?.trim() ?? '') ?? [];
  if (span === undefined || whole === undefined) return null;
  const wholeOctets = whole === '*' ? null : Number(whole);
  if (from === undefined || to === undefined) return { startOctet: null, endOctet: null, wholeOctets };
  const range = { startOctet: Number(from), endOctet: Number(to) + 1, wholeOctets };
  return range.endOctet <= range.startOctet || (wholeOctets !== null && range.endOctet > wholeOctets) ? null : range;
}

/** `Content-Length` as a number; null where there is none, or where it is not the length of the file. */
export function contentLength(headers: Headers): number | null {
  const text = headers.get('content-length')?.trim() ?? '';
  return isCoded(headers) || !/^\d{1,15}$/.test(text) ? null : Number(text);
}

/** Whether the octets were packed for the way: their count and places are not those of the file. */
export function isCoded(headers: Headers): boolean {
  return !['', 'identity'].includes(headers.get('content-encoding')?.trim().toLowerCase() ?? '');
}
