import { describe, expect, it } from 'vitest';
import { purityFindings } from './purity-rule.ts';
import { formatFindings, readCode } from './source-file.ts';

const findings = (text: string): readonly string[] =>
  purityFindings([{ path: 'lib/geo/a.ts', text }]).map((finding) => finding.say.split(':')[0] ?? '');

const impure: readonly [text: string, name: string][] = [
  ['const a = Date.now();', 'Date.now'],
  ["const a = Date['now']();", 'Date.now'],
  ['const a = new Date();', 'new Date()'],
  ['const a = Date();', 'Date'],
  ['const a = Math.random();', 'Math.random'],
  ['const draw = Math.random;', 'Math.random'],
  ["const a = process.env['HOME'];", 'process'],
  ['console.log(1);', 'console'],
  ['const a = performance.now();', 'performance'],
  ['const a = globalThis.Date;', 'globalThis'],
  ['const a = crypto.randomUUID();', 'crypto'],
  ["import { DateTime } from 'luxon'; const a = DateTime.now();", 'DateTime.now'],
  ['const a = new Date(0).getHours();', '.getHours'],
  ['const a = (1).toLocaleString();', '.toLocaleString'],
  ['setTimeout(() => 1, 5);', 'setTimeout'],
  ["const a = fetch('x');", 'fetch'],
  ['const a = import.meta.url;', 'import.meta'],
];

describe('purity of lib', () => {
  it.each(impure)('%s: found', (text, name) => {
    expect(findings(text)).toContain(name);
  });

  it.each([
    'const a = new Date(nowEpochMs).toISOString();',
    'const a = new Date(0).getUTCHours();',
    '// Date.now() would be wrong here\nconst a = 1;',
    "const a = 'Math.random()';",
    'const process = { s: 1 }; const a = process.s;',
    'const a = step.process.name;',
    'const a = Date.UTC(2026, 0, 1);',
  ])('%s: no finding', (text) => {
    expect(findings(text)).toEqual([]);
  });

  it('the same outside lib: no finding', () => {
    expect(purityFindings([{ path: 'server/main.ts', text: 'const a = Date.now();' }])).toEqual([]);
  });

  it('the tree: lib reads no clock, randomness or environment and prints nothing', () => {
    const files = readCode(['lib']);
    expect(files.length).toBeGreaterThan(20);
    expect(formatFindings(purityFindings(files))).toBe('');
  });
});
