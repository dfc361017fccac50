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
