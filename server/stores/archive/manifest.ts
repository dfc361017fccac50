import { z } from 'zod';
import { failed, ok, type Result } from '../../../lib/result/index.ts';
import type { ArchiveKind } from './archive-kind.ts';
import { manifestUnreadable, wrongArchive } from './archive-problems.ts';

/** One file of an archive, as its list has it. */
export interface ListedFile {
  readonly name: string;
  readonly sizeOctets: number;
  /** SHA-256 of the content, 64 hexadecimal digits. */
  readonly sha256: string;
}

/** What an archive says of itself: its last file. */
export interface Manifest {
  readonly slatch: ArchiveKind;
  readonly format: 1;
  readonly madeAtUtc: string;
  /** Version of the program that wrote it. */
  readonly program: string;
  /** Anything in it that was not as it should be, in words. */
  readonly remarks: readonly string[];
  readonly files: readonly ListedFile[];
}

/** Name of that file. It is the last, so that an archive that was cut off has none. */
export const MANIFEST_NAME = 'MANIFEST.json';

const schema = z.object({
  slatch: z.enum(['store', 'passage']),
  format: z.number(),
  madeAtUtc: z.string().max(40),
  program: z.string().max(100),
  remarks: z.array(z.string()),
  files: z.array(
    z.object({ name: z.string(), sizeOctets: z.int().nonnegative(), sha256: z.string().regex(/^[0-9a-f]{64}$/) }),
  ),
});

export const manifestText = (manifest: Manifest): string => `${JSON.stringify(manifest, null, 2)}\n`;

/** Reads it; an archive of the other kind, or of a later format, is refused by its own words. */
export function readManifest(text: string, wanted: ArchiveKind, where: string): Result<Manifest> {
  const read = schema.safeParse(jsonOf(text));
  if (!read.success) return failed(manifestUnreadable(where));
  const { format, ...manifest } = read.data;
  if (format !== 1 || manifest.slatch !== wanted) return failed(wrongArchive(where, { wanted, format, ...manifest }));
  return ok({ ...manifest, format });
}

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
