import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatGpx, parseGpx, type Track } from '../../lib/track/index.ts';

const gpx = (inside: string, version = '1.1'): string =>
  `<?xml version="1.0" encoding="UTF-8"?>\n<gpx version="${version}" creator="x" xmlns="http://www.topografix.com/GPX/1/1">${inside}</gpx>`;

const ROUTE =
  '<rte><name>Home</name><rtept lat="-40.5" lon="179.5"><name>A</name></rtept><rtept lat="-41" lon="-179.25"/></rte>';

const codes = (text: string): readonly string[] => {
  const read = parseGpx(text, 'a.gpx');
  return read.ok ? [] : read.problems.map(({ code }) => code);
};

describe('parseGpx', () => {
  it('a route: its points in order, with their names', () => {
    expect(parseGpx(gpx(ROUTE), 'a.gpx')).toEqual({
      ok: true,
      value: {
        waypoints: [
          { lat: -40.5, lon: 179.5, name: 'A', leg: 'rhumb' },
          { lat: -41, lon: -179.25, name: null, leg: 'rhumb' },
        ],
      },
    });
  });

  it('a recorded track: segments joined, standing still left out', () => {
    const points = (...lats: number[]): string =>
      `<trkseg>${lats.map((lat) => `<trkpt lat="${lat}" lon="10"><ele>0</ele><time>2026-05-01T00:00:00Z</time></trkpt>`).join('')}</trkseg>`;
    const read = parseGpx(gpx(`<trk>${points(1, 2, 2, 3)}${points(3, 4)}</trk>`), 'a.gpx');
    expect(read.ok ? read.value.waypoints.map(({ lat }) => lat) : []).toEqual([1, 2, 3, 4]);
  });

  it('a route beside a recorded track: the route, which is what is meant to be sailed', () => {
    const trk = '<trk><trkseg><trkpt lat="1" lon="1"/><trkpt lat="2" lon="2"/></trkseg></trk>';
    const read = parseGpx(gpx(ROUTE + trk), 'a.gpx');
    expect(read.ok ? read.value.waypoints[0]?.lat : NaN).toBe(-40.5);
  });

  it('prefixes, comments, CDATA, entities, byte order mark: read', () => {
    const text = `\uFEFF<?xml version='1.0'?><!-- <rte> --><g:gpx version='1.1' xmlns:g='http://www.topografix.com/GPX/1/1'>
      <g:rte><g:rtept lat='1' lon='2'><g:name><![CDATA[A & <B>]]></g:name></g:rtept>
      <g:rtept lon="+3." lat=".5"><g:name>R&#233;&#xE9; &amp; &lt;C&gt;</g:name></g:rtept></g:rte></g:gpx>`;
    const read = parseGpx(text, 'a.gpx');
    expect(read.ok ? read.value.waypoints.map(({ name }) => name) : []).toEqual(['A & <B>', 'Réé & <C>']);
  });

  it.each([
    ['nothing', '', ['xml.not-well-formed']],
    ['plain words', 'hello', ['xml.not-well-formed']],
    ['another kind of file', '<kml version="1.1"/>', ['gpx.not-gpx']],
    ['GPX 1.0', gpx(ROUTE, '1.0'), ['gpx.version']],
    ['no track', gpx(''), ['gpx.no-track']],
    ['loose waypoints', gpx('<wpt lat="1" lon="2"/><wpt lat="2" lon="2"/>'), ['gpx.no-track']],
    ['two routes', gpx(ROUTE + ROUTE), ['gpx.several-tracks']],
    ['one point', gpx('<rte><rtept lat="1" lon="2"/></rte>'), ['gpx.too-short']],
    ['one place twice', gpx('<rte><rtept lat="1" lon="2"/><rtept lat="1" lon="2"/></rte>'), ['gpx.too-short']],
    ['no points', gpx('<rte/>'), ['gpx.too-short']],
    [
      'two bad points',
      gpx('<rte><rtept lat="91" lon="2"/><rtept lon="2"/><rtept lat="1" lon="2"/></rte>'),
      ['gpx.point', 'gpx.point'],
    ],
    [
      'a latitude in words',
      gpx('<rte><rtept lat="1e1" lon="2"/><rtept lat="1" lon="NaN"/></rte>'),
      ['gpx.point', 'gpx.point'],
    ],
    ['cut off', gpx(ROUTE).slice(0, -20), ['xml.not-well-formed']],
    ['crossed tags', gpx('<rte><rtept lat="1" lon="2"></rte></rtept>'), ['xml.not-well-formed']],
    ['an attribute twice', gpx('<rte><rtept lat="1" lat="2" lon="2"/></rte>'), ['xml.not-well-formed']],
    ['an unknown entity', gpx('<rte><name>&bomb;</name></rte>'), ['xml.not-well-formed']],
    ['a document type', '<!DOCTYPE gpx [<!ENTITY a "b">]>' + gpx(ROUTE), ['xml.not-well-formed']],
    ['two roots', '<gpx version="1.1"/><gpx version="1.1"/>', ['xml.not-well-formed']],
  ])('%s: refused', (_, text, expected) => {
    expect(codes(text)).toEqual(expected);
  });

  it('a problem: names the file and the line or point', () => {
    const torn = parseGpx(gpx(`\n${ROUTE}\n<rte`), 'a.gpx');
    expect(torn.ok ? '' : torn.problems[0].where).toBe('a.gpx, line 4');
    const point = parseGpx(gpx('<rte><rtept lat="1" lon="2"/><rtept lat="1" lon="200"/></rte>'), 'a.gpx');
    expect(point.ok ? '' : point.problems[0].where).toBe('a.gpx, point 2');
  });

  it('cut off anywhere: a problem, never a track', () => {
    const text = gpx(ROUTE);
    for (let i = 0; i < text.length; i++) expect(codes(text.slice(0, i)).length).toBeGreaterThan(0);
  });

  it('any text: an answer, never an exception', () => {
    const piece = fc.constantFrom(
      '<',
      '>',
      '</',
      '/>',
      'gpx',
      'rte',
      ' lat="1"',
      '&',
      ';',
      '<!--',
      '-->',
      '<![CDATA[',
      ']]>',
      'x',
      '<?',
      '?>',
      '"',
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 30 }), (pieces) => {
        expect(parseGpx(pieces.join(''), 'a.gpx').ok).toBe(false);
      }),
      { seed: 41, numRuns: 500 },
    );
  });
});

describe('formatGpx', () => {
  const waypoint = fc.record({
    lat: fc.integer({ min: -90_000_000, max: 90_000_000 }).map((micro) => micro / 1e6),
    lon: fc.integer({ min: -180_000_000, max: 179_999_999 }).map((micro) => micro / 1e6),
    name: fc.option(fc.stringMatching(/^[!-~é€]([ -~é€]*[!-~é€])?$/)),
    leg: fc.constantFrom('rhumb' as const, 'great-circle' as const),
  });

  it('any track, written and read again: the same track', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(waypoint, { minLength: 2, maxLength: 12, selector: ({ lat }) => lat }),
        (waypoints) => {
          expect(parseGpx(formatGpx({ waypoints }, { name: 'a & b' }), 'a.gpx')).toEqual({
            ok: true,
            value: { waypoints },
          });
        },
      ),
      { seed: 42 },
    );
  });

  const track: Track = {
    waypoints: [
      { lat: 1, lon: 180, name: 'A', leg: 'rhumb' },
      { lat: 2, lon: -179.9999999, name: null, leg: 'rhumb' },
    ],
  };

  it('GPX 1.1 schema: longitudes below 180, marks before the route, their elements in order, times with seconds', () => {
    const mark = {
      position: { lat: -3, lon: 4 },
      name: 'Stitch',
      note: 'from 04:00',
      epochMs: Date.UTC(2026, 4, 27, 20, 12),
    };
    const text = formatGpx(track, { name: 'Home', marks: [mark] });
    expect(text).toContain('<rtept lat="1.000000" lon="-180.000000"><name>A</name></rtept>');
    expect(text).toContain('<rtept lat="2.000000" lon="-180.000000"></rtept>');
    expect(text).not.toMatch(/lon="180/);
    expect(text.indexOf('<wpt')).toBeLessThan(text.indexOf('<rte>'));
    expect(text.replaceAll(/\n\s*/g, '')).toContain(
      '<wpt lat="-3.000000" lon="4.000000"><time>2026-05-27T20:12:00Z</time><name>Stitch</name><desc>from 04:00</desc></wpt>',
    );
    expect(text).toMatch(/<gpx version="1\.1" creator="[^"]+" xmlns="http:\/\/www\.topografix\.com\/GPX\/1\/1">/);
  });

  it('names with markup and control characters: escaped, controls dropped', () => {
    const [first, second] = track.waypoints;
    if (!first || !second) throw new Error('two waypoints');
    const named = {
      waypoints: [
        { ...first, name: 'a<b>&"\u0000\u0007c\uD800' },
        { ...second, lon: 10 },
      ],
    };
    const read = parseGpx(formatGpx(named, { name: '' }), 'a.gpx');
    expect(read.ok ? read.value.waypoints[0]?.name : '').toBe('a<b>&"c');
  });
});
