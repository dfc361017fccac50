import { execFileSync } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { forecastCommand } from '../../scripts/commands/forecast.ts';
import { referenceTool } from '../reference-tools.ts';

const pathOf = (name: string): string => fileURLToPath(new URL(`../golden/${name}`, import.meta.url));
const GFS = pathOf('forecast/gfs_wind10m_20161120_0h_6h.grib2');
const DATE_LINE = pathOf('grib/files/am_bm_simple.grib2');
const MIXED = pathOf('grib/files/t_mixed_editions.grib');

async function run(...args: readonly string[]): Promise<{ code: number; out: string; err: string }> {
  const written = { out: '', err: '' };
  const code = await forecastCommand.run(args, {
    out: (text) => void (written.out += text),
    err: (text) => void (written.err += text),
    readFile,
    nowEpochMs: () => 0,
  });
  return { code, ...written };
}

describe('slatch forecast values', () => {
  const tool = referenceTool('grib_get_data');

  it.skipIf(tool === null).each([
    [GFS, 3],
    [DATE_LINE, 1],
    [MIXED, 2],
  ])('%s, field %d: every point as ecCodes gives it', async (file, field) => {
    const printed = await run('values', file, '--field', String(field), '--json');
    const { points } = JSON.parse(printed.out) as { points: [number, number, number | null][] };
    const lines = execFileSync(
      tool ?? '',
      ['-w', `count=${field}`, '-m', 'missing', '-L', '%.6f %.6f ', '-F', '%.10e', file],
      { encoding: 'utf8', maxBuffer: 1e9 },
    )
      .split('\n')
      .filter((line) => /^\s*-?\d/.test(line))
      .map((line) => line.trim().split(/[\s,]+/));
    expect(points.length).toBe(lines.length);
    const differing = points.filter(([lat, lon, value], i) => {
      const [itsLat, itsLon, itsValue] = lines[i] ?? [];
      const samePlace =
        Math.abs(lat - Number(itsLat)) < 2e-6 && Math.abs(((lon - Number(itsLon) + 540) % 360) - 180) < 2e-6;
      const sameValue =
        itsValue === 'missing'
          ? value === null
          : Math.abs((value ?? Infinity) - Number(itsValue)) <= 1e-9 * Math.abs(Number(itsValue));
      return !(samePlace && sameValue);
    });
    expect(differing).toEqual([]);
  });

  it('as CSV: a header with units, a row for every point', async () => {
    const { code, out } = await run('values', GFS, '--field', '1.1', '--csv');
    const lines = out.trimEnd().split('\n');
    expect(code).toBe(0);
    expect(lines[0]).toBe('lat (deg),lon (deg),value (m s-1)');
    expect(lines.length).toBe(1 + 360 * 180);
  });

  it.each([
    [['values', GFS], '--field is missing'],
    [['values', GFS, '--field', 'two'], 'expected a number'],
    [['values', '--field', '1'], 'exactly one FILE'],
    [['values', GFS, '--field', '1', '--colour'], 'colour'],
    [['list'], 'no FILE'],
    [['at', GFS, '--lat', '95', '--lon', '0'], 'from -90 to 90'],
    [['at', GFS, '--lat', '5'], '--lat and --lon are needed'],
    [['at', GFS, '--lat', '5', '--lon', '0', '--from', 'noon'], 'expected an instant'],
    [['draw'], 'expected list, values, at, cut or get'],
  ])('%j: wrong use, and what is right', async (args, sentence) => {
    const { code, out, err } = await run(...args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(sentence);
  });

  it.each([
    [['values', GFS, '--field', '99'], 'There is no field 99'],
    [['values', GFS, '--field', '1.2'], 'There is no field 1.2'],
    [['values', 'no-such-file.grib2', '--field', '1'], 'There is no such file'],
    [['values', pathOf('grib/files/icon_global_tot_prec_const.grib2'), '--field', '1'], 'unstructured'],
    [['list', pathOf('forecast/four-neighbours.json')], 'four-neighbours.json'],
  ])('%j: a problem of the input', async (args, sentence) => {
    const { code, err } = await run(...args);
    expect(code).toBe(1);
    expect(err).toContain(sentence);
  });
});

describe('slatch forecast list', () => {
  it('a file of four fields: one row each, and what is read from it', async () => {
    const { code, out } = await run('list', GFS, '--json');
    const { fields } = JSON.parse(out) as { fields: Record<string, unknown>[] };
    expect(code).toBe(0);
    expect(fields.length).toBe(4);
    expect(fields[3]).toMatchObject({
      field: 4,
      edition: 2,
      parameterCode: '0/2/3',
      level: '10 m above ground',
      baseUtc: '2016-11-20T00:00Z',
      validUtc: '2016-11-20T06:00Z',
      points: 64_800,
      missing: 0,
      usedAs: 'wind at 10 m',
    });
  });

  it('as text: the same', async () => {
    const { out } = await run('list', GFS);
    expect(out.trimEnd().split('\n').length).toBe(4);
    expect(out).toContain('0/2/2 u-component of wind; 10 m above ground');
  });

  it.each(['list', 'values', 'at'])('%s --help: an example', async (name) => {
    const { code, out } = await run(name, '--help');
    expect(code).toBe(0);
    expect(out).toContain(`\n  slatch forecast ${name} `);
  });
});

describe('slatch forecast at', () => {
  it('a southern place with a minus sign: wind in kn, what is missing by name', async () => {
    const { code, out } = await run('at', GFS, '--lat', '-34.2', '--lon', '179.4', '--every-min', '180', '--json');
    const answer = JSON.parse(out) as { missing: string[]; series: { atUtc: string; windKn: number }[] };
    expect(code).toBe(0);
    expect(answer.series.map(({ atUtc }) => atUtc)).toEqual([
      '2016-11-20T00:00Z',
      '2016-11-20T03:00Z',
      '2016-11-20T06:00Z',
    ]);
    expect(answer.missing).toContain('gust');
  });

  it('hours beyond the forecast: null, with the hours that are short on standard error', async () => {
    const span = '--from 2016-11-20T06:00Z --to 2016-11-20T12:00Z --every-min 360'.split(' ');
    const { code, out, err } = await run('at', GFS, '--lat', '10', '--lon', '-30', ...span, '--json');
    const { series } = JSON.parse(out) as { series: { windKn: number | null }[] };
    expect(code).toBe(0);
    expect(series.map(({ windKn }) => windKn === null)).toEqual([false, true]);
    expect(err).toContain('6 h before the plan does');
  });

  it('a place outside the file: how far, exit 1, nothing printed', async () => {
    const { code, out, err } = await run('at', pathOf('grib/files/gdaswave_cut.grib1'), '--lat', '10', '--lon', '-130');
    expect([code, out]).toEqual([1, '']);
    expect(err).toContain('900 nm');
  });
});
