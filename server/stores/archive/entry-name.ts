/** Names of files in an archive, and in a folder that is made from one. */

const MOST_NAME_OCTETS = 200;
const MOST_PART_OCTETS = 150;

/**
 * Whether a name stays inside the folder it is unpacked to, on every system: parts with `/` between them, none of them
 * empty or dots alone, nothing a shell, a terminal or another file system reads in a way of its own.
 */
export const isSafeName = (name: string): boolean =>
  Buffer.byteLength(name) <= MOST_NAME_OCTETS && name.split('/').every(isSafePart);

function isSafePart(part: string): boolean {
  if (Buffer.byteLength(part) > MOST_PART_OCTETS || RESERVED.test(part)) return false;
  return /^[\p{L}\p{N}_][\p{L}\p{M}\p{N}_ .,()+=@~-]*$/u.test(part) && !/[. ]$/.test(part);
}

/** Devices under Windows, whatever follows the dot (common knowledge of its file names, from memory). */
const RESERVED = /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i;
