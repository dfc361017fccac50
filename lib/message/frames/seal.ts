import { createHash, createHmac, timingSafeEqual } from 'node:crypto';
import { base32, SEAL_SEPARATOR } from './characters.ts';
import { idText, type MessageId } from './part.ts';

/** A message before it is cut into parts, or after they are joined. */
export interface Envelope extends MessageId {
  /** Whole minutes. */
  readonly baseEpochMs: number;
  readonly body: string;
}

/** Octets of the truncated code, as the design says; RFC 2104, 5 advises half of the hash at least, 128 bits: we give that up for 9 characters of an SMS. */
const MAC_OCTETS_COUNT = 10;
export const MAC_LENGTH_COUNT = 16;
export const HASH_LENGTH_COUNT = 6;
/** Shortest key; RFC 2104, 3 discourages keys shorter than the hash, 32 octets. */
export const LEAST_KEY_OCTETS_COUNT = 16;

/** What is authenticated: kind, sender, counter, base time and body, however the message is cut into parts. */
const sealedText = (id: MessageId, content: string): string => `${idText(id)};${content}`;

/**
 * HMAC-SHA256 (RFC 2104, FIPS 198-1), its first 80 bits, as 16 characters of base 32.
 *
 * @param keyOctets at least 16
 */
export function macOf(id: MessageId, content: string, keyOctets: Uint8Array): string {
  if (keyOctets.length < LEAST_KEY_OCTETS_COUNT) throw new Error('the key is too short');
  return base32(hmacSha256(keyOctets, new TextEncoder().encode(sealedText(id, content))).subarray(0, MAC_OCTETS_COUNT));
}

/** HMAC-SHA256, all 32 octets. */
export const hmacSha256 = (keyOctets: Uint8Array, octets: Uint8Array): Uint8Array =>
  createHmac('sha256', keyOctets).update(octets).digest();

/**
 * The first 30 bits of SHA-256 (FIPS 180-4), as 6 characters: shows without any key that the parts belong together. It
 * proves nothing about the sender.
 */
export const hashOf = (id: MessageId, content: string): string =>
  base32(sha256(sealedText(id, content))).slice(0, HASH_LENGTH_COUNT);

const sha256 = (text: string): Uint8Array => createHash('sha256').update(text).digest();

/** What tells two messages of one counter apart: 80 bits of SHA-256. */
export const fingerprintOf = (id: MessageId, content: string): string =>
  base32(sha256(sealedText(id, content)).subarray(0, MAC_OCTETS_COUNT));

/** The content of a message with its seal behind it: the hash, then the code if there is a key. */
export function sealed(id: MessageId, content: string, keyOctets: Uint8Array | null): string {
  const mac = keyOctets === null ? '' : macOf(id, content, keyOctets);
  return `${content}${SEAL_SEPARATOR}${hashOf(id, content)}${mac}`;
}

/** Whether two texts are the same, in a time that does not tell where they differ. */
export function isSameSecretly(a: string, b: string): boolean {
  const [left, right] = [a, b].map((text) => new TextEncoder().encode(text));
  return left !== undefined && right !== undefined && left.length === right.length && timingSafeEqual(left, right);
}
