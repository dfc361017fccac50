/** XML that lies: declarations of entities, things inside one another without end, attributes twice, names of others. */
import { type Damaging, ofText, type WeighedDamage } from './mutant.ts';

const LAUGHS = [
  '<!DOCTYPE gpx [<!ENTITY a "ha">',
  ...Array.from('bcdefghij', (name, i) => `<!ENTITY ${name} "${`&${'abcdefghi'.charAt(i)};`.repeat(10)}">`),
  ']>',
].join('');

/** Declarations before the root: internal, external, parameter entities, and one that grows to 10^9 characters. */
const PROLOGUES = [
  '<!DOCTYPE gpx>',
  '<!DOCTYPE gpx [<!ENTITY a "ha">]>',
  '<!DOCTYPE gpx SYSTEM "file:///etc/passwd">',
  '<!DOCTYPE gpx PUBLIC "-//X//Y" "http://127.0.0.1:9/x.dtd">',
  '<!DOCTYPE gpx [<!ENTITY % p SYSTEM "http://127.0.0.1:9/p"> %p;]>',
  '<!DOCTYPE gpx [<!ENTITY a SYSTEM "file:///dev/zero">]>',
  LAUGHS,
  '<?xml version="1.0" encoding="UTF-7"?>',
  '<?xml version="1.1"?>',
  '<?xml-stylesheet href="file:///etc/passwd"?>',
  '<!-- -- -->',
  '<!--',
  '<?',
  '<![CDATA[ ]]>',
];
const INSIDES = [
  '&a;',
  '&j;',
  '&#0;',
  '&#1;',
  '&#xD800;',
  '&#x110000;',
  '&#xFFFE;',
  '&#9999999;',
  '&#x202E;',
  '&',
  '&amp',
  '&toString;',
  '&constructor;',
  ']]>',
  '<![CDATA[]]>',
  '<![CDATA[<x>]]>',
  '<![CDATA[',
  '<!---->',
  '<!-- -->',
  '<?php x ?>',
  '<xi:include href="/etc/passwd"/>',
  '</name>',
  '<name>second</name>',
  '<type>great-circle</type>',
  '<rtept lat="1" lon="2"/>',
  '<rte/>',
  '<trk><trkseg/></trk>',
];
const COORDINATES = [
  '',
  ' ',
  '1',
  '-0',
  '91',
  '90',
  '-90.0000001',
  '180',
  '180.0000001',
  '-180',
  '360',
  '1e9',
  '1e-9',
  'NaN',
  'Infinity',
  '0x10',
  '1,5',
  '12°30',
  '1 2',
  '+',
  '.',
  '-.5',
  '٣',
  '9'.repeat(400),
  '0.'.padEnd(100_000, '1'),
  '\t7\n',
];
const GIANTS: readonly (() => string)[] = [
  () => '<a>'.repeat(1_000_000),
  () => '<a>'.repeat(300_000) + '</a>'.repeat(300_000),
  () => `<name>${'x'.repeat(1_000_000)}</name>`,
  () => `<name a="${'x'.repeat(1_000_000)}"/>`,
  () => `<name ${Array.from({ length: 50_000 }, (_, i) => `a${i}="1"`).join(' ')}/>`,
  () => `<name ${'a="1" '.repeat(50_000)}`,
  () => '<rtept lat="200" lon="x"/>'.repeat(100_000),
  () => '<rtept lat="1" lon="2"/>'.repeat(150_000),
  () => '&amp;'.repeat(300_000),
  () => `<!--${'-'.repeat(1_000_000)}`,
  () => '<'.repeat(1_000_000),
  () => `<${'a'.repeat(1_000_000)}>`,
  () => ' '.repeat(3_000_000),
  () => `<rte>${'<name>n</name>'.repeat(3)}</rte>`.repeat(50_000),
];

/** Somewhere between two elements. */
function between(text: string, { below }: Damaging, piece: string): string {
  const places = [...text.matchAll(/>/g)].map(({ index }) => index + 1);
  const at = places[below(Math.max(1, places.length))] ?? text.length;
  return text.slice(0, at) + piece + text.slice(at);
}

/** One of the elements of a text, from its beginning to its end. */
function anElement(text: string, { below }: Damaging): { readonly startIndex: number; readonly endIndex: number } {
  // Bounded: of a text of a million "<" every one is looked at.
  const found = [...text.matchAll(/<(\w{1,40})[^<>]{0,300}(?:\/>|>[^<]{0,300}<\/\1>)/g)];
  const one = found[below(Math.max(1, found.length))];
  return one === undefined
    ? { startIndex: 0, endIndex: 0 }
    : { startIndex: one.index, endIndex: one.index + one[0].length };
}

const change = (name: string, weight: number, of: (text: string, chance: Damaging) => string): WeighedDamage => ({
  name,
  weight,
  damage: ofText(of),
});

export const xmlDamages = (giantOneIn: number): readonly WeighedDamage[] => [
  change('a declaration before the root', 4, (text, { pick }) => {
    const at = text.indexOf('<gpx');
    return text.slice(0, Math.max(0, at)) + pick(PROLOGUES) + text.slice(Math.max(0, at));
  }),
  change('an entity declared and used', 3, (text, chance) => {
    const at = Math.max(0, text.indexOf('<gpx'));
    return between(text.slice(0, at) + LAUGHS + text.slice(at), chance, chance.pick(['&j;', '&a;']));
  }),
  change('something between elements', 6, (text, chance) => between(text, chance, chance.pick(INSIDES))),
  change('a giant between elements', 1, (text, chance) =>
    between(text, chance, chance.oneIn(giantOneIn) ? chance.pick(GIANTS)() : chance.pick(INSIDES)),
  ),
  change('a coordinate', 8, (text, { below, pick }) => {
    const found = [...text.matchAll(/l(?:at|on)="[^"]*"/g)];
    const one = found[below(Math.max(1, found.length))];
    if (one === undefined) return text;
    return `${text.slice(0, one.index)}${one[0].slice(0, 5)}${pick(COORDINATES)}"${text.slice(one.index + one[0].length)}`;
  }),
  change('an element taken out', 3, (text, chance) => {
    const { startIndex, endIndex } = anElement(text, chance);
    return text.slice(0, startIndex) + text.slice(endIndex);
  }),
  change('an element many times', 3, (text, chance) => {
    const { startIndex, endIndex } = anElement(text, chance);
    return (
      text.slice(0, endIndex) + text.slice(startIndex, endIndex).repeat(1 + chance.below(30)) + text.slice(endIndex)
    );
  }),
  change('a tag renamed', 3, (text, { below, pick }) => {
    const found = [...text.matchAll(/<\/?(\w+)/g)];
    const one = found[below(Math.max(1, found.length))];
    if (one === undefined) return text;
    const name = pick(['rte', 'trk', 'x:rtept', 'RTEPT', 'gpx', 'a'.repeat(5000), '1a', 'é', 'a:b:c', 'toString']);
    return text.slice(0, one.index) + one[0].replace(/\w+/, name) + text.slice(one.index + one[0].length);
  }),
  change('an attribute', 3, (text, { pick }) =>
    text.replace('version="1.1"', () =>
      pick([
        'version="1.1" version="1.1"',
        'x:version="1.1"',
        'version=1.1',
        "version='1.1'",
        'version="1.0"',
        'version="&#49;.1"',
      ]),
    ),
  ),
  change('another namespace', 2, (text, { pick }) =>
    text.replace(/xmlns="[^"]*"/, () =>
      pick(['xmlns="urn:x"', '', 'xmlns:g="urn:x"', 'xmlns="http://www.topografix.com/GPX/1/0"']),
    ),
  ),
];
