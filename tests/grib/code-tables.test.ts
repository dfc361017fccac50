/** Our copies of WMO's tables against WMO's own files (a committed excerpt) and against the definitions of ecCodes. */
import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { CENTRES } from '../../lib/grib/code-tables/centres.table.ts';
import {
  EDITION_1_LOCAL_PARAMETERS,
  EDITION_1_PARAMETERS,
} from '../../lib/grib/code-tables/edition-1-parameters.table.ts';
import { LOCAL_PARAMETERS } from '../../lib/grib/code-tables/local-parameters.table.ts';
import { OCEAN_PARAMETERS } from '../../lib/grib/code-tables/ocean-parameters.table.ts';
import {
  CATEGORIES,
  DATA_TYPES,
  DERIVED_FORECASTS,
  DISCIPLINES,
  ENSEMBLE_TYPES,
  INTERVAL_TYPES,
  PROBABILITIES,
  PROCESSES,
  SPATIAL_PROCESSES,
  TIME_INCREMENTS,
  TIME_RANGES_EDITION_1,
} from '../../lib/grib/code-tables/products.table.ts';
import { LOCAL_SURFACES, SURFACES_EDITION_1, SURFACES_EDITION_2 } from '../../lib/grib/code-tables/surfaces.table.ts';
import { codeOfStatistic, statisticOfCode } from '../../lib/grib/code-tables/statistic.ts';
import { GRIDS_EDITION_2, PACKINGS, PRODUCTS } from '../../lib/grib/code-tables/template-names.table.ts';
import { WEATHER_PARAMETERS } from '../../lib/grib/code-tables/weather-parameters.table.ts';
import { referenceTool } from '../reference-tools.ts';

const PARAMETERS = { ...WEATHER_PARAMETERS, ...OCEAN_PARAMETERS };

interface Excerpt {
  readonly rows: Readonly<Record<string, { readonly name: string; readonly unit: string }>>;
}
const excerpt = JSON.parse(readFileSync('tests/golden/grib/wmo-parameters.json', 'utf8')) as Excerpt;

/** WMO's units, which write strokes in some tables and exponents in others, in one form. */
const oneForm = (unit: string): string =>
  unit
    .trim()
    .replaceAll('**', '')
    .replace(/^(.*)\/(kg|s|m)$/, (_, above: string, below: string) => `${above} ${below}-1`.trim())
    .replace(/^deg$/, 'degree')
    .toLowerCase();

describe('parameters', () => {
  it('has the names and units of the excerpt of WMO files', () => {
    for (const [code, { name, unit }] of Object.entries(excerpt.rows))
      expect([code, PARAMETERS[code]?.[0], oneForm(PARAMETERS[code]?.[1] ?? '')]).toEqual([code, name, oneForm(unit)]);
  });

  it('a wrong unit or name is not waved through', () => {
    expect(oneForm('m/s')).toBe('m s-1');
    expect(oneForm('J/kg')).not.toBe(oneForm('J'));
    expect(oneForm('kg m-2 s-1')).not.toBe(oneForm('kg m-2'));
  });

  it('every key has the form of its table, and a name and a unit', () => {
    const forms: [object, RegExp][] = [
      [WEATHER_PARAMETERS, /^0\/(\d|19)\/\d+$/],
      [OCEAN_PARAMETERS, /^10\/[0-4]\/\d+$/],
      [LOCAL_PARAMETERS, /^(7|78|98)\/(0|10)\/\d+\/(19[2-9]|2\d\d)$/],
      [EDITION_1_PARAMETERS, /^\d{1,3}$/],
      [EDITION_1_LOCAL_PARAMETERS, /^(7\/2|98\/(128|140|228))\/\d+$/],
    ];
    for (const [table, form] of forms)
      for (const [key, [name, unit]] of Object.entries(table) as [string, [string, string]][]) {
        expect(key).toMatch(form);
        expect(name.trim().length * unit.trim().length).toBeGreaterThan(0);
      }
  });
});

describe('statistics', () => {
  it.each([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 100, 101, 102])(
    '%i of code table 4.10: there and back',
    (code) => {
      expect(codeOfStatistic(statisticOfCode(code))).toBe(code);
    },
  );
});

const isInstalled = referenceTool('grib_get') !== null;

describe.skipIf(!isInstalled)('definitions of ecCodes', () => {
  // `codes_info -d` prints the folder of its tables.
  const folder = isInstalled ? execFileSync('codes_info', ['-d'], { encoding: 'utf8' }).trim() : '';
  const newest = isInstalled
    ? Math.max(
        ...readdirSync(join(folder, 'grib2', 'tables'))
          .map(Number)
          .filter(Number.isInteger),
      )
    : 0;
  /** Code and words of each row that is neither reserved nor missing: `22 22 Wind speed (gust) (m/s)`. */
  const rowsOf = (...path: readonly string[]): [code: string, words: string][] =>
    readFileSync(join(folder, ...path), 'utf8')
      .split('\n')
      .flatMap((line) => {
        const [, code, words] = /^(\d+) \S+ +(.*)$/.exec(line) ?? [];
        const isNamed = code !== undefined && words !== undefined && !/^(Reserved|Missing)/i.test(words.trim());
        return isNamed ? [[code, words.trim()] as [string, string]] : [];
      });
  const edition2 = (table: string): [string, string][] =>
    rowsOf('grib2', 'tables', String(newest), `${table}.table`).filter(([code]) => Number(code) < 192);

  it.each(['0.0', '0.1', '0.2', '0.3', '0.4', '0.5', '0.6', '0.7', '0.19', '10.0', '10.1', '10.2', '10.3', '10.4'])(
    'code table 4.2.%s: every number, with its unit',
    (table) => {
      const prefix = table.replace('.', '/');
      // Two tendencies of velocity stand there with a wrong exponent, which WMO has corrected since.
      const corrected = ['10/4/38', '10/4/39'];
      const theirs = edition2(`4.2.${table}`).flatMap(([number, words]) => {
        const code = `${prefix}/${number}`;
        const unit = /\(([^()]*(\([^()]*\))?[^()]*)\)$/.exec(words)?.[1] ?? '';
        return corrected.includes(code) ? [] : [[code, oneForm(unit)]];
      });
      const ours = theirs.map(([code = '']) => [code, oneForm(PARAMETERS[code]?.[1] ?? 'none')]);
      expect(theirs.length).toBeGreaterThan(5);
      expect(ours).toEqual(theirs);
    },
  );

  it.each([
    ['0.0', DISCIPLINES],
    ['1.4', DATA_TYPES],
    ['3.1', GRIDS_EDITION_2],
    ['4.0', PRODUCTS],
    ['4.3', PROCESSES],
    ['4.6', ENSEMBLE_TYPES],
    ['4.7', DERIVED_FORECASTS],
    ['4.9', PROBABILITIES],
    ['4.11', TIME_INCREMENTS],
    ['4.15', SPATIAL_PROCESSES],
    ['4.91', INTERVAL_TYPES],
    ['5.0', PACKINGS],
  ] as [string, Readonly<Record<string, string>>][])('code table %s: every number has a name here', (table, names) => {
    const codes = rowsOf('grib2', 'tables', String(newest), `${table}.table`).map(([code]) => code);
    expect(codes.length).toBeGreaterThan(3);
    expect(codes.filter((code) => names[code] === undefined)).toEqual([]);
  });

  it.each(['0', '10'])('code table 4.1, discipline %s: every category has a name here', (discipline) => {
    const codes = edition2(`4.1.${discipline}`).map(([code]) => `${discipline}/${code}`);
    expect(codes.filter((code) => CATEGORIES[code] === undefined)).toEqual([]);
  });

  it('code table 4.5: every surface has a name here, and its unit where a value belongs to it', () => {
    const isPhysical = (unit: string): boolean => /^(m|Pa|K|%|kg m-3|Bq m-3|dBZ|K m2 kg-1 s-1|m2 s-1)$/.test(unit);
    const rows = edition2('4.5').map(([code, words]) => ({ code, unit: / \(([^()]+)\)$/.exec(words)?.[1] ?? '' }));
    expect(rows.filter(({ code }) => SURFACES_EDITION_2[code] === undefined)).toEqual([]);
    const measured = rows.filter(({ unit }) => isPhysical(unit));
    expect(measured.length).toBeGreaterThan(15);
    expect(measured.filter(({ code, unit }) => SURFACES_EDITION_2[code]?.[1]?.startsWith(unit) !== true)).toEqual([]);
  });

  it('edition 1: table 2 (numbers), 3 and 5: every number has a name here', () => {
    const missing = (names: object, ...path: readonly string[]): string[] =>
      rowsOf('grib1', ...path).flatMap(([code]) => (code in names || Number(code) > 254 ? [] : [code]));
    expect(missing(EDITION_1_PARAMETERS, '2.0.2.table').filter((code) => Number(code) < 128)).toEqual([]);
    expect(missing(SURFACES_EDITION_1, '3.table')).toEqual([]);
    expect(missing(TIME_RANGES_EDITION_1, '5.table')).toEqual([]);
  });

  it.each([
    ['local/kwbc/1/4.5.table', '7'],
    ['local/edzw/1/4.5.table', '78'],
  ])('local surfaces, %s: every number has a name here', (path, centre) => {
    const codes = rowsOf('grib2', 'tables', path).map(([code]) => code);
    const local = codes.filter((code) => Number(code) >= 192 && Number(code) < 255);
    // Slopes and a radar composite of centre 78 are no levels of the air or the sea.
    const wanted = local.filter((code) => centre === '7' || Number(code) <= 194);
    expect(wanted.length).toBeGreaterThan(2);
    expect(wanted.filter((code) => LOCAL_SURFACES[`${centre}/${code}`] === undefined)).toEqual([]);
  });

  it('local parameters of centre 98: number and unit', () => {
    const theirs = ['0.1', '0.6', '0.19', '10.2'].flatMap((category) =>
      rowsOf('grib2', 'tables', 'local', 'ecmf', '1', `4.2.${category}.table`)
        .filter(([number]) => Number(number) >= 192)
        .map(([number, words]) => {
          const unit = /\(([^()]*)\)$/.exec(words)?.[1]?.replace('0-1', '0 to 1');
          return [`98/${category.replace('.', '/')}/${number}`, unit];
        }),
    );
    expect(theirs.length).toBeGreaterThan(10);
    expect(theirs.map(([code = '']) => [code, LOCAL_PARAMETERS[code]?.[1]])).toEqual(theirs);
  });

  it('centres: every number is one of common code table C-11', () => {
    const codes = new Set(rowsOf('common', 'c-11.table').map(([code]) => code));
    expect(Object.keys(CENTRES).filter((code) => !codes.has(code))).toEqual([]);
  });
});
