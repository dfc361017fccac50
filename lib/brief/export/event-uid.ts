const OFFSET_BASIS = 0xcbf29ce484222325n;
const PRIME = 0x100000001b3n;

/** FNV-1a of 64 bits over the text in UTF-8, as 16 hexadecimal digits; source: Internet-Draft draft-eastlake-fnv-22 (2024), section 2; constants from memory. */
export function fnv1a64(text: string): string {
  let hash = OFFSET_BASIS;
  for (const octet of new TextEncoder().encode(text)) {
    hash = BigInt.asUintN(64, (hash ^ BigInt(octet)) * PRIME);
  }
  return hash.toString(16).padStart(16, '0');
}

/** What an event is about: with the passage it makes the UID, so that the next plan moves the event and adds none. */
export interface EventIdentity {
  readonly kind: 'plan' | 'work' | 'sleep' | 'wait' | 'decision' | 'fallback';
  readonly jobId: string;
  /** From 1, among those of the kind and job. */
  readonly sessionNumber: number;
}

/** UID of an event, the same for the same passage, kind, job and session; the domain is one that exists nowhere (RFC 2606). */
export const eventUid = (passageName: string, { kind, jobId, sessionNumber }: EventIdentity): string =>
  `${kind}-${fnv1a64([passageName, kind, jobId, `${sessionNumber}`].join('\0'))}@slatch.invalid`;
