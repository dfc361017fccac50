/** What tells one state of a file at the source from another: RFC 9110 §8.8. */
export interface Validators {
  /** Entity tag as sent, weak ones included; null: none. */
  readonly etag: string | null;
  readonly lastModified: string | null;
  /** May stand in If-Range: octets under it are the same octets. */
  readonly strong: string | null;
  /** Length of the whole file; null: not said. */
  readonly wholeOctets: number | null;
}

/** A date is a strong validator only when the answer is later by more than the file may have changed unseen. */
const SETTLED_MS = 60_000;

/** Validators of an answer 200 or 206; `isCoded`: its octets are not those of the file. */
export function validatorsOf(headers: Headers, wholeOctets: number | null): Validators {
  const etag = headers.get('etag');
  const lastModified = headers.get('last-modified');
  return { etag, lastModified, strong: strongOf({ etag, lastModified, date: headers.get('date') }), wholeOctets };
}

function strongOf(said: { etag: string | null; lastModified: string | null; date: string | null }): string | null {
  // With a weak tag the date may not be used either (RFC 9110 §13.1.5).
  if (said.etag !== null) return /^"[^"]*"$/.test(said.etag) ? said.etag : null;
  if (said.lastModified === null || said.date === null) return null;
  return Date.parse(said.date) - Date.parse(said.lastModified) >= SETTLED_MS ? said.lastModified : null;
}

/** Whether two answers can be of the same state of the file; what either does not say is no difference. */
export function isSameState(before: Validators, now: Validators): boolean {
  const agrees = <T>(a: T | null, b: T | null): boolean => a === null || b === null || a === b;
  return (
    agrees(before.etag, now.etag) &&
    agrees(before.lastModified, now.lastModified) &&
    agrees(before.wholeOctets, now.wholeOctets)
  );
}
