import { describe, expect, it } from 'vitest';
import { lockFindings, looseVersions } from './manifest-rules.ts';
import { readManifest, readRootFile } from './manifest.ts';

describe('package.json', () => {
  it('every version: is exact', () => {
    const { dependencies, devDependencies } = readManifest();
    expect(looseVersions({ ...dependencies, ...devDependencies })).toEqual([]);
  });

  it.each(['^1.2.3', '~1.2.3', '>=1', '*', 'latest', '1.x', 'file:../a'])('version %s: is refused', (version) => {
    expect(looseVersions({ a: version })).toHaveLength(1);
  });
});

describe('the scripts of package.json', () => {
  // npm starts a shell: without exec, ending npm would leave the program running. Pre-scripts may be skipped unseen.
  it.each(['start', 'test', 'check'])('%s: replaces the shell by our set-up, and has no pre-script', (name) => {
    const { scripts } = readManifest();
    expect(scripts[name]).toBe(`exec node scripts/bootstrap.mjs ${name}`);
    expect(scripts[`pre${name}`]).toBeUndefined();
  });
});

describe('package-lock.json', () => {
  it('every package: has a checksum and no address', () => {
    expect(lockFindings(readRootFile('package-lock.json'))).toEqual([]);
  });

  it('a package with an address or without a checksum: is refused', () => {
    const packages = { '': {}, 'node_modules/a': { resolved: 'https://example.org/a.tgz', integrity: 'sha512-x' } };
    expect(lockFindings(JSON.stringify({ packages }))).toHaveLength(1);
    expect(lockFindings(JSON.stringify({ packages: { '': {}, 'node_modules/b': {} } }))).toHaveLength(1);
  });
});
