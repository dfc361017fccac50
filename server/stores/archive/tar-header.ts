/** Headers of tar archives: POSIX.1-2017, pax utility, "ustar Interchange Format". */

/** Headers and contents fill whole blocks [octets]; two empty ones end an archive. */
export const BLOCK_OCTETS = 512;

/** The size has eleven octal digits [octets]. */
export const MOST_ENTRY_OCTETS = 8 ** 11 - 1;

/** What an archive says of one of its files. */
export interface TarHeader {
  readonly name: string;
  readonly sizeOctets: number;
  /** Links, devices and extensions are `other`: nothing of ours holds them. */
  readonly kind: 'file' | 'folder' | 'other';
}

/** Place and length of each field [octets]. */
const FIELDS = {
  name: [0, 100],
  mode: [100, 8],
  uid: [108, 8],
  gid: [116, 8],
  size: [124, 12],
  mtime: [136, 12],
  checksum: [148, 8],
  kind: [156, 1],
  magic: [257, 6],
  version: [263, 2],
  prefix: [345, 155],
} as const;
type Field = keyof typeof FIELDS;

const MAGIC = 'ustar\0';
/** As GNU tar writes it where it was not told otherwise; the fields we use are the same. */
const GNU_MAGIC = 'ustar ';

/**
 * The header of a file that only its owner may read and write.
 *
 * @param name parts with `/` between them; one that does not fit the format is our own mistake
 */
export function tarHeader({
  name,
  sizeOctets,
  modifiedEpochMs,
}: Omit<TarHeader, 'kind'> & { modifiedEpochMs: number }): Uint8Array {
  const parts = splitName(name);
  if (parts === null || sizeOctets > MOST_ENTRY_OCTETS) throw new Error(`no tar entry can be "${name}"`);
  const block = Buffer.alloc(BLOCK_OCTETS);
  const put = (field: Field, text: string): void => void block.write(text, FIELDS[field][0], 'utf8');
  put('name', parts.name);
  put('prefix', parts.prefix);
  put('mode', octal(0o600, 'mode'));
  put('uid', octal(0, 'uid'));
  put('gid', octal(0, 'gid'));
  put('size', octal(sizeOctets, 'size'));
  put('mtime', octal(Math.max(0, Math.floor(modifiedEpochMs / 1000)), 'mtime'));
  put('kind', '0');
  put('magic', MAGIC);
  put('version', '00');
  put('checksum', `${octal(checksumOf(block), 'checksum').slice(1)}\0 `);
  return block;
}

/** Zeroes in front, one octet behind left empty. */
const octal = (value: number, field: Field): string => value.toString(8).padStart(FIELDS[field][1] - 1, '0');

/** A long name is cut at one of its `/`: what is before it goes into a field of its own; null: it does not fit. */
function splitName(name: string): { name: string; prefix: string } | null {
  const fits = (text: string, field: Field): boolean => Buffer.byteLength(text) <= FIELDS[field][1];
  if (fits(name, 'name')) return { name, prefix: '' };
  for (let at = name.indexOf('/'); at > 0; at = name.indexOf('/', at + 1)) {
    const parts = { prefix: name.slice(0, at), name: name.slice(at + 1) };
    if (fits(parts.name, 'name') && parts.name !== '') return fits(parts.prefix, 'prefix') ? parts : null;
  }
  return null;
}

/** Whether a name fits the format. */
export const isTarName = (name: string): boolean => splitName(name) !== null;

/** Sum of all octets of a header, those of the sum itself taken as blanks. */
function checksumOf(block: Uint8Array): number {
  const [at, length] = FIELDS.checksum;
  return block.reduce((sum, octet, index) => sum + (index >= at && index < at + length ? 0x20 : octet), 0);
}

/**
 * Reads a header.
 *
 * @returns `end` of an empty block, `damaged` of one that is no header or whose sum does not hold
 */
export function readTarHeader(block: Uint8Array): TarHeader | 'end' | 'damaged' {
  if (block.every((octet) => octet === 0)) return 'end';
  const octets = Buffer.from(block.buffer, block.byteOffset, block.byteLength);
  const text = (field: Field): string => textOf(octets, field);
  if (![MAGIC, GNU_MAGIC].includes(octets.toString('latin1', FIELDS.magic[0], FIELDS.magic[0] + 6))) return 'damaged';
  const [sizeOctets, checksum] = [octalOf(text('size')), octalOf(text('checksum'))];
  if (sizeOctets === null || checksum !== checksumOf(block)) return 'damaged';
  const prefix = text('prefix');
  const name = prefix === '' ? text('name') : `${prefix}/${text('name')}`;
  return { name, sizeOctets, kind: KINDS[text('kind')] ?? 'other' };
}

const KINDS: Readonly<Record<string, TarHeader['kind']>> = { '0': 'file', '': 'file', '5': 'folder' };

function textOf(block: Buffer, field: Field): string {
  const [at, length] = FIELDS[field];
  const octets = block.subarray(at, at + length);
  const end = octets.indexOf(0);
  return octets.toString('utf8', 0, end < 0 ? length : end);
}

/** Blanks may stand on either side. */
function octalOf(text: string): number | null {
  const digits = text.trim();
  return /^[0-7]{1,11}$/.test(digits) ? Number.parseInt(digits, 8) : null;
}
