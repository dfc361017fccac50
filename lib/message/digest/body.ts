/** A digest as the body of a message, and back. */
import { failed, ok, type Problem, type Result } from '../../result/index.ts';
import type { Digest } from './digest.ts';
import { passDigest, type Port } from './layout.ts';
import { digestSummary, SUMMARY_END } from './summary.ts';
import { PackedReader, PackedWriter } from './packed-text.ts';
import { codeOf, rainOfIndex, type Scale, valueOf } from './scales.ts';

/** The body of a message: a line for the eye, and the digest packed. */
export const writeDigestBody = (digest: Digest): string =>
  `${digestSummary(digest)}${SUMMARY_END}${packDigest(digest)}`;

/** Most characters the line for the eye takes. */
export const MOST_SUMMARY_CHARACTERS = 56;

/** The digest of a body. Where the line for the eye says something else than the packed part, it is `message.digest-damaged`. */
export function readDigestBody(body: string, where: string): Result<Digest> {
  const end = body.indexOf(SUMMARY_END);
  const read = unpackDigest(body.slice(end + 1), where);
  if (!read.ok || body.slice(0, Math.max(0, end)) === digestSummary(read.value)) return read;
  return failed(damaged(where, `Its line for the eye is not that of its numbers, ${digestSummary(read.value)}.`));
}

/** A digest in the packed alphabet. Its numbers lie on their scales: what is read back is equal. */
export function packDigest(digest: Digest): string {
  const writer = new PackedWriter();
  const port: Port = {
    one: (scale: Scale, value) => {
      if (value === undefined) throw new Error('a digest is written whole');
      const code = codeOf(scale, value);
      writer.write(code, scale.bitCount);
      return valueOf(scale, code);
    },
  };
  passDigest(port, digest);
  return writer.text();
}

/** The digest of a packed text, or `message.digest-damaged`: too short, too long, or with impossible values. */
export function unpackDigest(text: string, where: string): Result<Digest> {
  const reader = new PackedReader(text);
  let isShort = false;
  const port: Port = {
    one: (scale: Scale) => {
      const code = reader.read(scale.bitCount);
      isShort ||= code === null;
      return valueOf(scale, code ?? 0);
    },
  };
  const digest = passDigest(port, null);
  if (isShort) return failed(damaged(where, 'It ends before all its numbers are there.'));
  if (digest === null || !isSound(digest)) return failed(damaged(where, 'It holds numbers that cannot be.'));
  if (!reader.isAtEnd()) return failed(damaged(where, 'It goes on after its last number.'));
  return ok(digest);
}

const isSound = ({ places, windKn, rainIndex, spread }: Digest): boolean =>
  places.every(({ lat, lon }) => lat <= 90 && lon < 180) &&
  windKn.some((value) => !Number.isNaN(value)) &&
  rainIndex.every((index) => Number.isNaN(index) || !Number.isNaN(rainOfIndex(index))) &&
  (spread === null ||
    (spread.timingH.every(Number.isFinite) &&
      spread.modes.every(({ values, scoresSd }) => [...values, ...scoresSd].every(Number.isFinite))));

const damaged = (where: string, what: string): Problem => ({
  code: 'message.digest-damaged',
  where,
  what,
  expected: 'a digest as it was written',
  remedy: 'Ask for it again.',
});
