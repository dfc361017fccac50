/** Every way a file can be wrong or beyond us, made by changing octets of a good message of edition 2; and what is said. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { decodeField, decodePacked, scanGrib } from '../../lib/grib/index.ts';
import { readGoldenBytes } from './golden-files.ts';
import { altered, codesOf, complexMessage, sectionStart, smallMessage } from './sample-message.ts';

const text = (words: string): Uint8Array => new TextEncoder().encode(words);
const joined = (...parts: Uint8Array[]): Uint8Array => Uint8Array.from(parts.flatMap((part) => [...part]));
const small = smallMessage();
const complex = complexMessage();
const ccsds = readGoldenBytes('bits07_ccsds.grib2');
const inSmall = (sectionNumber: number, octet: number, octets: readonly number[]): Uint8Array =>
  altered(small, { sectionNumber, octet }, octets);
const inComplex = (sectionNumber: number, octet: number, octets: readonly number[]): Uint8Array =>
  altered(complex, { sectionNumber, octet }, octets);
const decodeCodes = (bytes: Uint8Array): string[] =>
  scanGrib(bytes, 'test').fields.flatMap((field) => {
    const values = decodeField(bytes, field);
    return values.ok ? [] : values.problems.map(({ code }) => code);
  });

describe('a file that is no GRIB', () => {
  it.each([
    ['empty', text(''), 'grib.empty-file'],
    ['web page', text('\n <!DOCTYPE html><html><body>Not found</body></html>'), 'grib.web-page'],
    ['web page after a byte order mark', joined(Uint8Array.of(0xef, 0xbb, 0xbf), text('<html>')), 'grib.web-page'],
    ['XML answer', text('<?xml version="1.0"?><Error/>'), 'grib.error-answer'],
    ['JSON answer', text('{"error":"no such run"}'), 'grib.error-answer'],
    ['bzip2', text('BZh91AY&SY'), 'grib.compressed'],
    ['gzip', Uint8Array.of(0x1f, 0x8b, 8, 0), 'grib.compressed'],
    ['zip', Uint8Array.of(0x50, 0x4b, 3, 4, 20), 'grib.compressed'],
    ['NetCDF', Uint8Array.of(0x43, 0x44, 0x46, 1, 0), 'grib.other-format'],
    ['HDF5', Uint8Array.of(0x89, 0x48, 0x44, 0x46, 13, 10), 'grib.other-format'],
    ['one octet', Uint8Array.of(0x47), 'grib.not-grib'],
    ['words that name GRIB', text('This is about GRIB files and nothing else'), 'grib.not-grib'],
  ])('%s', (_, bytes, code) => {
    const { fields, problems } = scanGrib(bytes, 'download.grb');
    expect(fields).toEqual([]);
    expect(problems.map((problem) => problem.code)).toEqual([code]);
    expect(problems[0]?.where).toBe('download.grb');
  });

  it('web page: the sailor is told what probably happened', () => {
    const [problem] = scanGrib(text('<html>404</html>'), 'gfs.grb').problems;
    expect(problem?.what).toBe('This is a web page, not a GRIB file.');
    expect(problem?.remedy).toMatch(/download address probably answered with an error page/);
  });
});

describe('framing', () => {
  const shorter = (octets: number): Uint8Array => small.slice(0, small.length - octets);
  it.each([
    ['edition 3', altered(small, { sectionNumber: 0, octet: 8 }, [3]), ['grib.edition-unsupported']],
    ['cut inside Section 0', small.slice(0, 12), ['grib.message-truncated']],
    ['cut inside Section 7', shorter(8), ['grib.message-truncated']],
    ['7777 cut off', shorter(4), ['grib.end-missing']],
    [
      '7777 overwritten',
      altered(small, { sectionNumber: 7, octet: small.length - sectionStart(small, 7) - 3 }, [0, 0, 0, 0]),
      ['grib.end-missing'],
    ],
    ['total length too large', altered(small, { sectionNumber: 0, octet: 15 }, [0x7f, 0]), ['grib.message-length']],
    ['section of 4 octets', altered(small, { sectionNumber: 4, octet: 1 }, [0, 0, 0, 4]), ['grib.section-broken']],
    ['section number 9', altered(small, { sectionNumber: 4, octet: 5 }, [9]), ['grib.section-broken']],
    ['sections out of order', altered(small, { sectionNumber: 4, octet: 5 }, [6]), ['grib.section-broken']],
  ])('%s', (_, bytes, codes) => {
    expect(codesOf(bytes)).toEqual(codes);
  });

  it('7777 missing or a wrong total length: the field is used all the same', () => {
    for (const bytes of [shorter(4), altered(small, { sectionNumber: 0, octet: 15 }, [0x7f, 0])]) {
      expect(scanGrib(bytes, 'test').fields.length).toBe(1);
      expect(decodeCodes(bytes)).toEqual([]);
    }
  });

  it('a broken message between good ones: passed over', () => {
    const broken = altered(small, { sectionNumber: 4, octet: 1 }, [0, 0, 0, 4]);
    const { fields, problems } = scanGrib(joined(small, broken, small), 'three.grib2');
    expect(fields.map(({ messageNumber, fieldNumber }) => [messageNumber, fieldNumber])).toEqual([
      [1, 1],
      [3, 2],
    ]);
    expect(problems.map(({ where }) => where)).toEqual([
      `three.grib2, message 2 (at octet ${small.length + 1} of the file), section 4, octet 1`,
    ]);
  });

  it('bulletin header, line ends and zeros between messages: passed over without a word', () => {
    const header = text('\u0001\r\r\n001\r\r\nHTXA85 KWBC 271200\r\r\n');
    const bytes = joined(header, small, new Uint8Array(7), text('\r\r\n\u0003'), small, new Uint8Array(112));
    expect(scanGrib(bytes, 'x')).toMatchObject({ problems: [], fields: [{ messageOffsetOctet: header.length }, {}] });
  });

  it('7777 inside the data: not taken for the end', () => {
    // 7777 is 0x37 four times; 16-bit numbers 0x3737 stand side by side.
    const bytes = smallMessage({ values: [0, 655.35, ...Array.from({ length: 10 }, () => 0x3737 / 100)] });
    expect([...bytes].join().split('55,55,55,55').length).toBeGreaterThan(2);
    expect(codesOf(bytes)).toEqual([]);
  });
});

describe('sections', () => {
  it.each([
    ['month 13', inSmall(1, 15, [13]), 'grib.date-impossible'],
    ['30 February', inSmall(1, 15, [2, 30]), 'grib.date-impossible'],
    ['hour 24', inSmall(1, 17, [24]), 'grib.date-impossible'],
    ['forecast time of ages', inSmall(4, 18, [2, 0x7f, 0xff, 0xff, 0xff]), 'grib.date-impossible'],
    ['space view', inSmall(3, 13, [0, 90]), 'grib.grid-unsupported'],
    ['Lambert grid in a short section', inSmall(3, 13, [0, 30]), 'grib.section-too-short'],
    ['unstructured grid', inSmall(3, 13, [0, 101]), 'grib.grid-unsupported'],
    ['thinned grid without a list', inSmall(3, 31, [255, 255, 255, 255]), 'grib.grid-unsupported'],
    ['staggered grid', inSmall(3, 72, [0x48]), 'grib.grid-unsupported'],
    ['4 000 million points', inSmall(3, 7, [0xf0, 0, 0, 0]), 'grib.too-many-points'],
    ['4 000 million values', inSmall(5, 6, [0xf0, 0, 0, 0]), 'grib.too-many-points'],
    ['5 columns of 4', inSmall(3, 31, [0, 0, 0, 5]), 'grib.grid-inconsistent'],
    ['no columns', inSmall(3, 31, [0, 0, 0, 0]), 'grib.grid-inconsistent'],
    ['latitude 200', inSmall(3, 47, [0x0b, 0xeb, 0xc2, 0]), 'grib.grid-inconsistent'],
    ['longitude 800', inSmall(3, 51, [0x2f, 0xaf, 0x08, 0]), 'grib.grid-inconsistent'],
    ['rows against the scan', inSmall(3, 72, [0]), 'grib.grid-inconsistent'],
    ['simulated satellite, template 32', inSmall(4, 8, [0, 32]), 'grib.product-unsupported'],
    ['chemistry, template 40', inSmall(4, 8, [0, 40]), 'grib.product-unsupported'],
    ['cluster of members, template 3', inSmall(4, 8, [0, 3]), 'grib.product-unsupported'],
    ['waves by period, template 103, in a short section', inSmall(4, 8, [0, 103]), 'grib.section-too-short'],
    ['interval template in a short section', inSmall(4, 8, [0, 8]), 'grib.section-too-short'],
    ['months', inSmall(4, 18, [3]), 'grib.time-unit-unsupported'],
    ['run length, template 200', inSmall(5, 10, [0, 200]), 'grib.packing-unsupported'],
    ['matrix, template 1', inSmall(5, 10, [0, 1]), 'grib.packing-unsupported'],
    ['logarithm, template 61', inSmall(5, 10, [0, 61]), 'grib.packing-unsupported'],
    ['spectral, template 50', inSmall(5, 10, [0, 50]), 'grib.packing-unsupported'],
    ['JPEG 2000 template in a short section', inSmall(5, 10, [0, 40]), 'grib.section-too-short'],
    ['CCSDS template in a short section', inSmall(5, 10, [0, 42]), 'grib.section-too-short'],
    ['CCSDS blocks of 7', altered(ccsds, { sectionNumber: 5, octet: 23 }, [7]), 'grib.coding-unsupported'],
    ['CCSDS signed samples', altered(ccsds, { sectionNumber: 5, octet: 22 }, [15]), 'grib.coding-unsupported'],
    ['complex template in a short section', inSmall(5, 10, [0, 2]), 'grib.section-too-short'],
    ['row by row missing management 7', inComplex(5, 23, [7]), 'grib.packing-unsupported'],
    ['differencing of order 3', inComplex(5, 48, [3]), 'grib.packing-unsupported'],
    ['extra descriptors of 9 octets', inComplex(5, 49, [9]), 'grib.packing-unsupported'],
    ['33 bits', inSmall(5, 20, [33]), 'grib.bits-unsupported'],
    ['decimal factor −32767', inSmall(5, 18, [255, 255]), 'grib.scale-impossible'],
    ['reference value not a number', inSmall(5, 12, [0x7f, 0xc0, 0, 0]), 'grib.scale-impossible'],
    ['bitmap of a catalogue', inSmall(6, 6, [17]), 'grib.bitmap-unsupported'],
    ['an earlier bitmap that is not there', inSmall(6, 6, [254]), 'grib.bitmap-missing'],
    ['no bitmap for 11 values of 12 points', inSmall(6, 6, [255]), 'grib.count-mismatch'],
    ['more values than points', inSmall(5, 6, [0, 0, 0, 13]), 'grib.count-mismatch'],
  ])('%s', (_, bytes, code) => {
    expect(codesOf(bytes)).toEqual([code]);
  });

  it('says file, message, section, octet, table and value', () => {
    const [field] = scanGrib(altered(small, { sectionNumber: 5, octet: 10 }, [0, 200]), 'radar.grib2').fields;
    expect(field?.support).toMatchObject({
      where: 'radar.grib2, message 1 (at octet 1 of the file), section 5, octet 10',
      what: 'GRIB2 code table 5.0 (data representation template): value 200 (run length) is not supported.',
    });
    expect(field?.support?.remedy).toMatch(/simple packing/);
  });
});

describe('interval block', () => {
  const validity = { kind: 'interval', startEpochMs: 0, endEpochMs: 3_600_000, statistic: 'maximum' } as const;
  const gust = smallMessage({ referenceEpochMs: 0, validity });

  it.each([
    ['no time range', [0], 'grib.time-range-unsupported'],
    ['two time ranges in the octets of one', [2], 'grib.section-too-short'],
    ['255 time ranges in the octets of one', [255], 'grib.section-too-short'],
  ])('%s: not understood', (_, octets, code) => {
    expect(codesOf(altered(gust, { sectionNumber: 4, octet: 42 }, octets))).toEqual([code]);
  });

  it('end before start and no length: not understood', () => {
    const early = altered(gust, { sectionNumber: 4, octet: 35 }, [7, 100]);
    expect(codesOf(altered(early, { sectionNumber: 4, octet: 50 }, [255, 255, 255, 255]))).toEqual([
      'grib.interval-reversed',
    ]);
  });

  it('no end written: start + length', () => {
    const [field] = scanGrib(altered(gust, { sectionNumber: 4, octet: 35 }, [0, 0, 0, 0, 0, 0, 0]), 'x').fields;
    expect(field?.validity).toEqual({ ...validity, statisticCode: 2 });
  });
});

describe('decodeField', () => {
  it.each([
    [
      'bitmap marks one point fewer',
      altered(small, { sectionNumber: 6, octet: 7 }, [0b0111_1011]),
      'grib.bitmap-count',
    ],
    ['16 bits where 11 are stored', altered(small, { sectionNumber: 5, octet: 20 }, [16]), 'grib.data-too-short'],
    [
      'more groups than values',
      altered(complex, { sectionNumber: 5, octet: 32 }, [0, 1, 0, 0]),
      'grib.groups-inconsistent',
    ],
    [
      'last group too long',
      altered(complex, { sectionNumber: 5, octet: 43 }, [0, 0, 1, 0]),
      'grib.groups-inconsistent',
    ],
    ['group widths from 40 bits on', altered(complex, { sectionNumber: 5, octet: 36 }, [40]), 'grib.bits-unsupported'],
    ['group tables of 40 bits', altered(complex, { sectionNumber: 5, octet: 37 }, [40]), 'grib.bits-unsupported'],
    [
      'groups 20 bits wider than stored',
      altered(complex, { sectionNumber: 5, octet: 36 }, [22]),
      'grib.data-too-short',
    ],
  ])('%s', (_, bytes, code) => {
    expect(codesOf(bytes)).toEqual([]);
    expect(decodeCodes(bytes)).toEqual([code]);
  });

  it('bitmap shorter than the grid', () => {
    // Section 6 of 7 octets declared over a grid of 4 × 3 points: one octet of bits is missing.
    const start = sectionStart(small, 6);
    const cut = Uint8Array.from([...small.slice(0, start), 0, 0, 0, 7, 6, 0, 0xff, ...small.slice(start + 8)]);
    expect(decodeCodes(cut)).toEqual(['grib.bitmap-count']);
  });

  it('other octets than those listed', () => {
    const [field] = scanGrib(small, 'test').fields;
    if (field === undefined) throw new Error('no field');
    const values = decodeField(small.slice(0, 60), field);
    expect(values).toMatchObject({ ok: false, problems: [{ code: 'grib.bytes-changed' }] });
  });

  it('unsupported grid: refused, though its values alone can be had', () => {
    const bytes = altered(small, { sectionNumber: 3, octet: 13 }, [0, 101]);
    const [field] = scanGrib(bytes, 'test').fields;
    if (field === undefined) throw new Error('no field');
    expect(decodeCodes(bytes)).toEqual(['grib.grid-unsupported']);
    expect(decodePacked(bytes, field).ok).toBe(true);
  });

  it('product not understood: values are decoded all the same', () => {
    expect(decodeCodes(altered(small, { sectionNumber: 4, octet: 8 }, [0, 103]))).toEqual([]);
  });
});

describe('compressed data', () => {
  it.each([
    ['PNG without its signature', 'bits09_png.grib2', 6],
    ['JPEG 2000 without its first marker', 'bits13_jpeg.grib2', 6],
  ])('%s: damaged, with section and octet', (_, file, octet) => {
    const bytes = altered(readGoldenBytes(file), { sectionNumber: 7, octet }, [0]);
    const [field] = scanGrib(bytes, file).fields;
    if (field === undefined) throw new Error('no field');
    const values = decodeField(bytes, field);
    expect(values.ok ? [] : values.problems).toMatchObject([
      { code: 'grib.data-damaged', where: `${file}, message 1 (at octet 1 of the file), section 7, octet ${octet}` },
    ]);
  });

  it('CCSDS that ends too early: damaged', () => {
    const bytes = ccsds.slice();
    const [field] = scanGrib(bytes, 'cut').fields;
    if (field === undefined) throw new Error('no field');
    const lengthOctets = field.location.data.lengthOctets - 100;
    const short = { ...field, location: { ...field.location, data: { ...field.location.data, lengthOctets } } };
    const values = decodeField(bytes, short);
    expect(values.ok ? [] : values.problems.map(({ code }) => code)).toEqual(['grib.data-damaged']);
  });
});

describe('codes', () => {
  it('every code in lib/grib stands in a test', () => {
    const codesIn = (folder: string): string[] =>
      readdirSync(folder, { recursive: true, encoding: 'utf8' })
        .filter((path) => path.endsWith('.ts'))
        .flatMap((path) =>
          [...readFileSync(`${folder}/${path}`, 'utf8').matchAll(/'(grib\.[a-z-]+)'/g)].map(([, code]) => code ?? ''),
        );
    const tested = new Set(['tests/grib', 'tests/hostile'].flatMap(codesIn));
    expect([...new Set(codesIn('lib/grib'))].filter((code) => !tested.has(code))).toEqual([]);
  });
});
