/**
 * GPX that lies. XML 1.0 (fifth edition): 2.2 Char, 2.8 document type declarations, 4.1 character references, 4.4 entities;
 * the growing entities are the well-known example of CAPEC-197 (exponential data expansion).
 */
import { describe, expect, it } from 'vitest';
import { parseGpx } from '../../lib/track/index.ts';

const gpx = (inside: string, before = ''): string =>
  `${before}<gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1"><rte><rtept lat="1" lon="2"><name>${inside}</name></rtept><rtept lat="2" lon="2"/></rte></gpx>`;
const said = (text: string): string => {
  const read = parseGpx(text, 'a.gpx');
  return read.ok ? `read: ${read.value.waypoints[0]?.name}` : `${read.problems[0].code} ${read.problems[0].where}`;
};
const laughs = Array.from(
  'bcdefghij',
  (name, i) => `<!ENTITY ${name} "${`&${'abcdefghi'.charAt(i)};`.repeat(10)}">`,
).join('');

describe('parseGpx, a text that lies', () => {
  it.each([
    ['no harm', gpx('A &amp; B &#xE9;'), 'read: A & B é'],
    [
      'entities that grow to a thousand million',
      gpx('&j;', `<!DOCTYPE gpx [<!ENTITY a "ha">${laughs}]>`),
      'xml.not-well-formed a.gpx, line 1',
    ],
    [
      'an entity from a file',
      gpx('&a;', '<!DOCTYPE gpx [<!ENTITY a SYSTEM "file:///etc/hostname">]>'),
      'xml.not-well-formed a.gpx, line 1',
    ],
    [
      'a parameter entity',
      gpx('', '<!DOCTYPE gpx [<!ENTITY % p SYSTEM "http://127.0.0.1:9/p"> %p;]>'),
      'xml.not-well-formed a.gpx, line 1',
    ],
    ['an entity nobody declared', gpx('&toString;'), 'xml.not-well-formed a.gpx, line 1'],
    ['a null', gpx('a\0b'), 'xml.not-well-formed a.gpx, line 1'],
    ['a control character', gpx('\n\u0001'), 'xml.not-well-formed a.gpx, line 2'],
    ['a reference to a null', gpx('&#0;'), 'xml.not-well-formed a.gpx, line 1'],
    ['a reference to a control character', gpx('&#1;'), 'xml.not-well-formed a.gpx, line 1'],
    ['a reference to half a character', gpx('&#xD800;'), 'xml.not-well-formed a.gpx, line 1'],
    ['a reference beyond the last character', gpx('&#x110000;'), 'xml.not-well-formed a.gpx, line 1'],
    [
      'an attribute twice',
      gpx('').replace('version="1.1"', 'version="1.1" version="1.1"'),
      'xml.not-well-formed a.gpx, line 1',
    ],
    ['90 elements inside one another', gpx('<x>'.repeat(90) + '</x>'.repeat(90)), 'read: '],
    ['a million elements inside one another', gpx('<x>'.repeat(1_000_000)), 'xml.not-well-formed a.gpx, line 1'],
    ['a megabyte of attribute', gpx(`<x a="${'y'.repeat(1_000_000)}"/>`), 'read: '],
    ['more than it reads', ' '.repeat(20_000_001), 'gpx.too-large a.gpx'],
  ])('%s', (_, text, expected) => {
    expect(said(text)).toBe(expected);
  });

  it('50 000 points that are no places: the first of them, and how many more', () => {
    const points = '<rtept lat="200" lon="x"/>'.repeat(50_000);
    const read = parseGpx(gpx('').replace('</rte>', `${points}</rte>`), 'a.gpx');
    const problems = read.ok ? [] : read.problems;
    expect(problems.at(0)?.where).toBe('a.gpx, point 3');
    expect(problems.length).toBeLessThan(1000);
    expect(problems.at(-1)?.code).toBe('result.many-more');
  });
});
