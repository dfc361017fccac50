/** `slatch forecast cut`: the file it writes, what it says of it, and what it refuses. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { scanGrib } from '../../lib/grib/index.ts';
import { forecastCommand } from '../../scripts/commands/forecast.ts';

const pathOf = (name: string): string => fileURLToPath(new URL(`../../${name}`, import.meta.url));
const GFS = pathOf('tests/golden/grib/files/gfs_2p5_cut.grib2');
const DEMO = pathOf('sample-forecasts/demo-passage.json');
const CONTROL = pathOf('sample-forecasts/demo-control.grib2');
const folder = mkdtempSync(join(tmpdir(), 'cut-command-'));
const OUT = join(folder, 'cut.grib2');
afterAll(() => rmSync(folder, { recursive: true }));

async function cut(...args: readonly string[]): Promise<{ code: number; out: string; err: string }> {
  const written = { out: '', err: '' };
  const code = await forecastCommand.run(['cut', ...args], {
    out: (text) => void (written.out += text),
    err: (text) => void (written.err += text),
    readFile,
    nowEpochMs: () => 0,
  });
  return { code, ...written };
}

describe('slatch forecast cut', () => {
  it('a box: the file, octets before and after, exactness and what is left out', async () => {
    const { code, out, err } = await cut(GFS, '--out', OUT, '--box', '-40,170,-20,-170', '--quantities', 'wind,gust');
    const bytes = new Uint8Array(readFileSync(OUT));
    expect([code, err]).toEqual([0, '']);
    expect(scanGrib(bytes, OUT).fields).toHaveLength(3);
    expect(out).toContain(`${OUT}: ${bytes.length} octets of ${readFileSync(GFS).length}, 1 in `);
    expect(out).toContain(
      'wind at 10 m: 2011-10-11T00:00Z to 2011-10-11T00:00Z; control; within 0.097 kn in each component',
    );
    expect(out).toContain('Quantities left out: pressure at sea level, rain.');
  });

  it('a passage, as JSON: its corridor, the hours and the control alone', async () => {
    const args =
      '--margin-nm 30 --from 2026-05-27T18:00Z --to 2026-05-28T06:00Z --every-h 6 --control-only --precision coarse --json';
    const { code, out } = await cut(CONTROL, '--out', OUT, '--passage', DEMO, ...args.split(' '));
    const told = JSON.parse(out) as {
      afterOctets: number;
      kept: { quantity: string; endUtc: string }[];
      leftOut: string[];
    };
    expect(code).toBe(0);
    expect(told.afterOctets).toBe(readFileSync(OUT).length);
    expect(told.kept[0]).toMatchObject({
      quantity: 'wind',
      hasControl: true,
      memberCount: 0,
      firstUtc: '2026-05-27T18:00Z',
      endUtc: '2026-05-28T06:00Z',
      greatestError: { unit: 'kn' },
    });
    expect(told.leftOut.join()).toContain('farther than 30 nm from the way');
  });

  it('separate: as many messages as fields', async () => {
    const { code } = await cut(GFS, '--out', OUT, '--box', '-40,170,-20,-170', '--separate');
    const { fields } = scanGrib(new Uint8Array(readFileSync(OUT)), OUT);
    expect([code, fields.length, fields.at(-1)?.messageNumber]).toEqual([0, 5, 5]);
  });

  it.each([
    [['--box', '-40,170,-20,-170', '--quantities', 'wind,gusts'], 'Did you mean "gust"?'],
    [
      ['--box', '-40,170,-20,-170', '--from', '2020-01-01T00:00Z'],
      'hours between 2011-10-10T18:00Z and 2011-10-11T00:00Z',
    ],
    [['--box', '10,170,-20,-170'], 'is no box'],
    [['--passage', GFS], 'Expected'],
  ])('%j: refused with the reason, exit code 1, nothing written', async (args, reason) => {
    writeFileSync(OUT, 'before');
    const { code, err } = await cut(GFS, '--out', OUT, ...args);
    expect(err).toContain(reason);
    expect([code, readFileSync(OUT, 'utf8')]).toEqual([1, 'before']);
  });

  it('a folder that is not there: refused with the reason', async () => {
    const { code, err } = await cut(GFS, '--out', join(folder, 'none', 'x.grib2'), '--box', '-40,170,-20,-170');
    expect(err).toContain('The file cannot be written');
    expect(code).toBe(1);
  });

  it.each([
    [['--box', '-40,170,-20,-170'], '--out is missing'],
    [['--out', 'x.grib2'], 'one of --passage and --box is needed'],
    [['--out', 'x.grib2', '--box', '1,2,3'], 'expected south,west,north,east'],
    [['--out', 'x.grib2', '--box', '1,2,3,4', '--margin-nm', '60'], '--margin-nm goes with --passage'],
    [['--out', 'x.grib2', '--box', '1,2,3,4', '--every-h', '24'], 'expected a number from 1 to 12'],
    [['--out', 'x.grib2', '--box', '1,2,3,4', '--every-member', '2', '--control-only'], 'exclude each other'],
    [['--out', 'x.grib2', '--box', '1,2,3,4', '--precision', 'best'], 'expected fine or coarse'],
    [['--out', GFS, '--box', '1,2,3,4'], 'is one of the files to be cut'],
  ])('%j: wrong use, exit code 2', async (args, reason) => {
    const { code, err } = await cut(GFS, ...args);
    expect(err).toContain(reason);
    expect(code).toBe(2);
  });

  it('--help: an example', async () => {
    expect((await cut('--help')).out).toContain('slatch forecast cut gfs.grib2 --out small.grib2');
  });
});
