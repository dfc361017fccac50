import { describe, expect, it } from 'vitest';
import { sources, type Source } from '../../lib/sources/index.ts';
import { readCode } from '../architecture/source-file.ts';
import { sourceFindings, usedIds } from './source-rules.ts';

const entry: Source = { title: 'On Swell', who: 'A. Author', year: 1999, where: 'Journal 1, 2-3' };
const use = (text: string): { path: string; text: string }[] => [{ path: 'lib/geo/a.ts', text }];

describe('usedIds', () => {
  it('docstring, code and data: all are found', () => {
    expect(usedIds("/** @see sources.SWELL_1999, eq. 3 */ f(sources.OTHER); const a = { sourceId: 'THIRD' };")).toEqual(
      ['SWELL_1999', 'OTHER', 'THIRD'],
    );
  });
});

describe('usedIds of other things called sources', () => {
  it('a local value: no id', () => {
    expect(usedIds('const sources = new Map(); sources.entries();')).toEqual([]);
  });
});

describe('bibliography', () => {
  it('an id without an entry: found', () => {
    expect(sourceFindings({}, use('/** @see sources.SWELL_1999 */'))).toHaveLength(1);
    expect(sourceFindings({}, use('/** @see sources.swell, p. 2 */'))).toHaveLength(1);
    expect(sourceFindings({}, use("const a = { sourceId: 'SWELL_1999' };"))).toHaveLength(1);
  });

  it('an entry without a use: found', () => {
    expect(sourceFindings({ SWELL_1999: entry }, use('const a = 1;'))).toHaveLength(1);
  });

  it('entries out of order, out of style, with an empty field: found', () => {
    const text = "'B' 'A' 'swell'";
    expect(sourceFindings({ B: entry, A: entry }, use(text))).toHaveLength(1);
    expect(sourceFindings({ swell: entry }, use(text))).toHaveLength(1);
    expect(sourceFindings({ A: { ...entry, where: ' ' } }, use(text))).toHaveLength(1);
  });

  it('an entry that is used: no finding', () => {
    expect(sourceFindings({ SWELL_1999: entry }, use('/** @see sources.SWELL_1999, p. 2 */'))).toEqual([]);
  });

  it('the tree: every id has its entry and every entry its use', () => {
    expect(sourceFindings(sources, readCode(['lib'])).join('\n')).toBe('');
  });
});
