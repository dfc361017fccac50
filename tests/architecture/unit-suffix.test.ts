import { describe, expect, it } from 'vitest';
import { formatFindings, readCode } from './source-file.ts';
import { saysUnit, unitSuffixFindings } from './unit-suffix-rule.ts';

const findings = (text: string): readonly string[] =>
  unitSuffixFindings([{ path: 'lib/geo/a.ts', text }]).map((finding) => finding.say.split(' ')[0] ?? '');

describe('unit suffixes', () => {
  it.each([
    ['interface A { readonly temp: number }', 'temp'],
    ['interface A { heading?: number }', 'heading'],
    ['type A = { depth: number | null };', 'depth'],
    ['function f(angle: number): void {}', 'angle'],
    ['const f = (width: number): number => width;', 'width'],
    ['const f = (width: number = 3): number => width;', 'width'],
    ['function f(a: { length: number }): void {}', 'length'],
    ['type F = (distance: number) => number;', 'distance'],
    ['interface A { size(depth: number): void }', 'depth'],
    ['function f(amount: number, units: string): void {}', 'amount'],
    ['interface A { wind: { p11: number } }', 'p11'],
  ])('%s: found', (text, name) => {
    expect(findings(text)).toEqual([name]);
  });

  it.each([
    'interface A { readonly airC: number; windFromDegTrue: number; startEpochMs: number | null }',
    'interface A { amount: number; unit: string }',
    'function f(amount: number, unit: string): void {}',
    'interface A { deckWindKn: { low: number; high: number } }',
    'function f(position: { lat: number; lon: number }): number { return 1; }',
    'const f = (i: number, k: number): number => i + k;',
    'interface A { name: string; done: boolean }',
    'function f(count: number, index: number): void {}',
  ])('%s: no finding', (text) => {
    expect(findings(text)).toEqual([]);
  });

  it.each(['windKn', 'sleepHPer24H', 'x10M', 'octet16Octet', 'probability', 'lat', 'k'])(
    '%s: says its unit',
    (name) => {
      expect(saysUnit(name)).toBe(true);
    },
  );

  it.each(['wind', 'limits', 'km', 'form', 'main', 'DATUM', 'hs', 'temperature', 'minutes'])(
    '%s: does not say its unit',
    (name) => {
      expect(saysUnit(name)).toBe(false);
    },
  );

  it('the tree: every number in lib says its unit', () => {
    expect(formatFindings(unitSuffixFindings(readCode(['lib'])))).toBe('');
  });
});
