/** Passages as one file, whole or wrong in one way or another. ASCII alone: a form is a text here. */
import { createHash } from 'node:crypto';
import { type ListedFile, MANIFEST_NAME, manifestText } from '../../../server/stores/archive/manifest.ts';
import { BLOCK_OCTETS, MOST_ENTRY_OCTETS, tarHeader } from '../../../server/stores/archive/tar-header.ts';
import type { Chance } from '../chance.ts';
import { littlePassageText } from '../little-world.ts';

interface Entry {
  readonly name: string;
  readonly text: string;
}

const PASSAGE: Entry = { name: 'passage.json', text: littlePassageText().replaceAll(/[^\n -~]/g, '?') };
const LOG_LINES = [
  '{"kind":"note","atUtc":"2026-05-27T18:00Z","note":"calm"}',
  '{"kind":"sleep","atUtc":"2026-05-27T10:00Z","endUtc":"2026-05-27T16:00Z"}',
  '{"kind":"correction","atUtc":"2026-05-27T19:00Z","corrects":1,"by":null}',
  '{"kind":"correction","atUtc":"2026-05-27T19:00Z","corrects":99,"by":null}',
  '{"kind":"note","atUtc":"9999-12-31T23:59Z","note":"late"}',
  '{"kind":"note"}',
  '[]',
  '',
];
const STRANGE_NAMES = ['../../x', '/etc/x', 'a/../b', 'CON', 'PASSAGE.JSON', 'passage.json', 'log.jsonl/x', '.', ' '];
const STRANGE_VALUES = ['1e999', '-1', '1e308', 'null', '[]', '{}', '"store:0"', '"../../x"', '"x.grib2"', '0.1.2'];
const BLOCK = '\0'.repeat(BLOCK_OCTETS);

/** The octets of such a file as a text. */
export function archiveContent(chance: Chance): string {
  const { pick, below, oneIn } = chance;
  const entries = [pick([PASSAGE, PASSAGE, strangePassage(chance)]), ...(oneIn(2) ? [logOf(chance)] : [])];
  if (oneIn(4)) entries.push({ name: pick(STRANGE_NAMES), text: pick(['', 'GRIB', 'x'.repeat(700)]) });
  if (oneIn(8)) entries.shift();
  const whole = packed(entries, chance);
  const at = below(whole.length);
  return pick([
    () => whole,
    () => whole,
    () => whole.slice(0, at),
    () => whole.slice(0, at) + String.fromCodePoint(below(128)) + whole.slice(at + 1),
    () => whole + whole,
    () => whole.replace(BLOCK + BLOCK, ''),
  ])();
}

/** One value of it another one. */
function strangePassage({ pick, below }: Chance): Entry {
  const values = [...PASSAGE.text.matchAll(/: ("[^"]*"|-?[\d.]+)/g)];
  const { index = 0, 0: found = '' } = values[below(values.length)] ?? {};
  const text = `${PASSAGE.text.slice(0, index)}: ${pick(STRANGE_VALUES)}${PASSAGE.text.slice(index + found.length)}`;
  return { ...PASSAGE, text };
}

function logOf({ pick, below, oneIn }: Chance): Entry {
  const lines = Array.from({ length: below(5) }, () => (oneIn(3) ? pick(LOG_LINES) : (LOG_LINES[0] ?? '')));
  return { name: 'log.jsonl', text: lines.map((line) => `${line}\n`).join('') };
}

function packed(entries: readonly Entry[], { pick, oneIn }: Chance): string {
  const files = entries.map(({ name, text }): ListedFile => ({
    name,
    sizeOctets: oneIn(20) ? MOST_ENTRY_OCTETS : text.length,
    sha256: createHash('sha256')
      .update(oneIn(20) ? 'another' : text)
      .digest('hex'),
  }));
  const manifest = manifestText({
    slatch: oneIn(10) ? 'store' : 'passage',
    format: 1,
    madeAtUtc: '2026-05-27T20:00:00.000Z',
    program: pick(['0.1.0', '99.0.0', '']),
    remarks: oneIn(10) ? ['x'.repeat(5000)] : [],
    files,
  });
  const all = oneIn(12) ? entries : [...entries, { name: MANIFEST_NAME, text: manifest }];
  return all.map((entry) => packedEntry(entry, oneIn(30))).join('') + BLOCK + BLOCK;
}

/** @param isLying its header speaks of 8 GB */
function packedEntry({ name, text }: Entry, isLying: boolean): string {
  const sizeOctets = isLying ? MOST_ENTRY_OCTETS : text.length;
  const header = Buffer.from(tarHeader({ name, sizeOctets, modifiedEpochMs: 0 })).toString('latin1');
  return header + text + '\0'.repeat((BLOCK_OCTETS - (text.length % BLOCK_OCTETS)) % BLOCK_OCTETS);
}
