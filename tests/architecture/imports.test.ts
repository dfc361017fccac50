import { describe, expect, it } from 'vitest';
import { cycleFindings, roomTableCycles } from './cycle-rule.ts';
import { importFindings } from './import-rules.ts';
import { allowedRooms, codeFolders, packageHomes } from './rooms.ts';
import { readManifest } from './manifest.ts';
import { formatFindings, readCode, type SourceFile } from './source-file.ts';

const sample = (path: string, text: string): SourceFile[] => [{ path, text }];

const badSamples: readonly [rule: string, path: string, text: string][] = [
  ['nobody-imports-tests', 'server/app.ts', "import { a } from '../tests/a.ts';"],
  ['lib-imports-lib-only', 'lib/geo/a.ts', "import type { A } from '../../server/app.ts';"],
  ['lib-imports-no-node-module', 'lib/grib/a.ts', "import { readFileSync } from 'node:fs';"],
  ['lib-imports-no-node-module', 'lib/grib/a.ts', "import { readFileSync } from 'fs';"],
  ['lib-imports-no-node-module', 'lib/forecast/a.ts', "import { inflateSync } from 'node:zlib';"],
  ['views-import-no-node-module', 'views/parts/a.tsx', "import { join } from 'node:path';"],
  ['rooms-through-their-door', 'lib/sky/a.ts', "import type { P } from '../geo/position.ts';"],
  ['rooms-through-their-door', 'server/app.ts', "import { p } from '../lib/geo/position.ts';"],
  ['rooms-only-as-listed', 'lib/geo/a.ts', "import { x } from '../planner/index.ts';"],
  ['rooms-only-as-listed', 'lib/geo/a.ts', "export type { X } from '../planner/index.ts';"],
  ['rooms-only-as-listed', 'lib/geo/a.ts', "export * from '../planner/index.ts';"],
  ['rooms-only-as-listed', 'lib/attic/a.ts', "import { x } from '../geo/index.ts';"],
  ['views-know-types-only', 'views/pages/a.tsx', "import { plan } from '../../lib/planner/index.ts';"],
  ['views-know-types-only', 'views/pages/a.tsx', "import type { Deps } from '../../server/deps.ts';"],
  ['server-imports-no-scripts', 'server/app.ts', "import { x } from '../scripts/bench.ts';"],
  ['scripts-import-stores-and-fetchers', 'scripts/a.ts', "import { createApp } from '../server/app.ts';"],
  ['scripts-import-stores-and-fetchers', 'scripts/a.ts', "import { Page } from '../views/parts/page.tsx';"],
  ['one-home-per-package', 'lib/planner/a.ts', "import { DateTime } from 'luxon';"],
  ['one-home-per-package', 'server/app.ts', "import left from 'left-pad';"],
  ['one-home-per-package', 'lib/geo/a.ts', "import { jsx } from 'preact/jsx-runtime';"],
  ['no-computed-import-in-lib', 'lib/geo/a.ts', "export const later = import('./b.ts');"],
];

const goodSamples: readonly [path: string, text: string][] = [
  ['lib/sky/a.ts', "import { p } from '../geo/index.ts'; import { b } from './b.ts'; import s from 'suncalc';"],
  ['lib/grib/packing/png/a.ts', "import { inflateSync } from 'node:zlib';"],
  ['server/app.ts', "import { p } from '../lib/planner/index.ts'; import fs from 'node:fs'; import e from 'express';"],
  [
    'views/pages/a.tsx',
    "import type { Plan } from '../../lib/planner/index.ts'; import { scaleLinear } from 'd3-scale';",
  ],
  [
    'scripts/a.ts',
    "import { openStore } from '../server/stores/index.ts'; import { p } from '../lib/planner/index.ts';",
  ],
  ['tests/geo/a.test.ts', "import { p } from '../../lib/geo/position.ts'; import fc from 'fast-check';"],
];

describe('imports', () => {
  it.each(badSamples)('%s: fires on %s', (rule, path, text) => {
    expect(importFindings(sample(path, text)).map((finding) => finding.rule)).toContain(rule);
  });

  it.each(goodSamples)('allowed imports of %s: no finding', (path, text) => {
    expect(importFindings(sample(path, text))).toEqual([]);
  });

  it('the tree: keeps to the table in rooms.ts', () => {
    const files = readCode(codeFolders);
    expect(files.length).toBeGreaterThan(20);
    expect(formatFindings(importFindings(files))).toBe('');
  });

  it('the table: has no cycle and names only rooms it lists', () => {
    expect(roomTableCycles()).toEqual([]);
    expect(
      Object.values(allowedRooms)
        .flat()
        .filter((room) => !(room in allowedRooms)),
    ).toEqual([]);
  });

  it('package homes: each is a dependency of the project; one for development lives in scripts alone', () => {
    const { dependencies, devDependencies } = readManifest();
    const isFor = (name: string): boolean =>
      name in dependencies ||
      (name in devDependencies && (packageHomes[name] ?? []).every((home) => home.startsWith('scripts/')));
    expect(Object.keys(packageHomes).filter((name) => !isFor(name))).toEqual([]);
  });
});

describe('cycles', () => {
  it('two files that import each other: reported as the way around', () => {
    const files = [
      { path: 'lib/geo/a.ts', text: "import { b } from './b.ts';" },
      { path: 'lib/geo/b.ts', text: "import type { A } from './a.ts';" },
    ];
    expect(cycleFindings(files).map((finding) => finding.say.split(':')[0])).toEqual([
      'lib/geo/a.ts -> lib/geo/b.ts -> lib/geo/a.ts',
    ]);
  });

  it('three rooms in a ring: reported', () => {
    expect(roomTableCycles({ a: ['b'], b: ['c'], c: ['a'], d: ['a'] })).toEqual(['a -> b -> c -> a']);
  });

  it('a diamond: no cycle', () => {
    expect(roomTableCycles({ a: ['b', 'c'], b: ['d'], c: ['d'], d: [] })).toEqual([]);
  });

  it('the tree: has none', () => {
    expect(formatFindings(cycleFindings(readCode(codeFolders)))).toBe('');
  });
});
