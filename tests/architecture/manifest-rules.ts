/** Package ranges that are not one exact version: `name@range`. */
export const looseVersions = (dependencies: Readonly<Record<string, string>>): readonly string[] =>
  Object.entries(dependencies)
    .filter(([, version]) => !/^\d+\.\d+\.\d+$/.test(version))
    .map(([name, version]) => `${name}@${version}: write one exact version, without ^ or ~`);

/** Packages of a lock file that carry the address they were fetched from, or no checksum. */
export function lockFindings(lockText: string): readonly string[] {
  const lock = JSON.parse(lockText) as { packages: Record<string, { resolved?: string; integrity?: string }> };
  return Object.entries(lock.packages).flatMap(([path, entry]) => [
    ...(entry.resolved === undefined ? [] : [`${path}: remove "resolved" (omit-lockfile-registry-resolved in .npmrc)`]),
    ...(path === '' || entry.integrity !== undefined ? [] : [`${path}: no "integrity"; run npm install again`]),
  ]);
}
