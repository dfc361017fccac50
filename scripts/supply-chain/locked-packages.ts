import { z } from 'zod';

/** A package of the lock file. */
export interface LockedPackage {
  readonly name: string;
  readonly version: string;
  /** SPDX expression, as the package states it; null: it states none. */
  readonly licence: string | null;
  /** Needed to develop and to test only; never there where `--omit=dev` was said. */
  readonly isForDevelopment: boolean;
  /** Asks to run a program of its own while it is installed. */
  readonly hasInstallScript: boolean;
  /** Subresource Integrity of what was fetched; null: its content is not held to anything. */
  readonly integrity: string | null;
}

const lockEntry = z.object({
  version: z.string().default(''),
  license: z.string().nullable().default(null),
  dev: z.boolean().default(false),
  hasInstallScript: z.boolean().default(false),
  integrity: z.string().nullable().default(null),
});

const lockFile = z.object({ packages: z.record(z.string(), lockEntry) });

const FOLDER = 'node_modules/';

/** Packages of a lock file of version 3, one for each name and version, by name. */
export function lockedPackages(lockText: string): readonly LockedPackage[] {
  const { packages } = lockFile.parse(JSON.parse(lockText));
  const byKey = new Map<string, LockedPackage>();
  for (const [path, entry] of Object.entries(packages)) {
    if (!path.includes(FOLDER)) continue;
    const found = packageOf(path.slice(path.lastIndexOf(FOLDER) + FOLDER.length), entry);
    const key = keyOf(found);
    const before = byKey.get(key);
    // There twice, in two folders: for development only where both are.
    const isForDevelopment = found.isForDevelopment && (before?.isForDevelopment ?? true);
    byKey.set(key, { ...found, isForDevelopment });
  }
  return [...byKey.values()].toSorted((a, b) => (keyOf(a) < keyOf(b) ? -1 : 1));
}

export const keyOf = ({ name, version }: Pick<LockedPackage, 'name' | 'version'>): string => `${name}@${version}`;

const packageOf = (name: string, entry: z.infer<typeof lockEntry>): LockedPackage => ({
  name,
  version: entry.version,
  licence: entry.license,
  isForDevelopment: entry.dev,
  hasInstallScript: entry.hasInstallScript,
  integrity: entry.integrity,
});
