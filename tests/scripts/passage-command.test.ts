/** `slatch passage`: a passage as one file, and back on another machine, where the same plan comes out. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { textHash } from '../../server/stores/index.ts';
import { projectFolder } from '../architecture/source-file.ts';
import { slatch } from '../end-to-end/run-slatch.ts';
import { folderWith, forecastOctets, removeFolders, writePassage } from '../end-to-end/small-passage.ts';
import { IS_LONG_RUN } from '../long-run.ts';
import { freshStore, valueOf } from '../stores/store-fixture.ts';

afterAll(removeFolders);

const GPX = `<?xml version="1.0"?>
<gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1">
<rte><rtept lat="-35.5" lon="176.5"/><rtept lat="-34.5" lon="-176"/></rte></gpx>`;
const windKn = (stepH: number): number => (stepH >= 9 ? 7 : 19);
const LOG = '{"kind":"note","atUtc":"2026-05-27T03:00Z","note":"Slept well."}\n';

async function planOf(passage: string, ...more: readonly string[]): Promise<string> {
  const short = more.includes('--until') ? [] : ['--until', '2026-05-27T15:00Z'];
  const { code, out, err } = await slatch('plan', passage, '--json', '--seed', '1', ...short, ...more);
  expect({ code, err: err.replace(/^planned in .*\n/m, '') }).toEqual({ code: 0, err: '' });
  return out;
}

interface Imported {
  readonly passage: string;
  readonly log: string | null;
}

/** Exported, brought to "another machine", and imported there. */
async function moved(...exportArgs: readonly string[]): Promise<Imported> {
  const out = join(folderWith({}), 'passage.tar');
  expect(await slatch('passage', 'export', ...exportArgs, '--out', out)).toMatchObject({ code: 0, err: '' });
  const there = folderWith({ 'a.tar': readFileSync(out) });
  const imported = await slatch('passage', 'import', join(there, 'a.tar'), '--to', join(there, 'in'), '--json');
  expect(imported).toMatchObject({ code: 0, err: '' });
  return JSON.parse(imported.out) as Imported;
}

describe('slatch passage export and import', () => {
  it('a passage with its forecast beside it and a log: every file to the octet, and the same plan', async () => {
    const file = writePassage({ forecast: forecastOctets({ windKn }) });
    const logFile = join(folderWith({ 'my-log.jsonl': LOG }), 'my-log.jsonl');
    const { passage, log } = await moved(file, '--log', logFile);
    expect(readFileSync(passage).equals(readFileSync(file))).toBe(true);
    expect(readFileSync(log ?? '', 'utf8')).toBe(LOG);
    expect(await planOf(passage, '--log', log ?? '')).toBe(await planOf(file, '--log', logFile));
  });

  it('names that lead elsewhere, a track in a GPX file: found again below one folder, and the same plan', async () => {
    const elsewhere = folderWith({ 'Wind & sea!.grib2': forecastOctets({ windKn }), 'track.gpx': GPX });
    const file = writePassage({
      passage: {
        forecasts: [join(elsewhere, 'Wind & sea!.grib2')],
        track: { gpx: join(elsewhere, 'track.gpx') } as never,
      },
      forecast: null,
    });
    const { passage } = await moved(file);
    const text = JSON.parse(readFileSync(passage, 'utf8')) as { forecasts: unknown; track: unknown };
    expect([text.forecasts, text.track]).toEqual([['files/2-Wind___sea_.grib2'], { gpx: 'files/1-track.gpx' }]);
    expect(readdirSync(join(passage, '..', 'files')).toSorted()).toEqual(['1-track.gpx', '2-Wind___sea_.grib2']);
    expect(await planOf(passage)).toBe(await planOf(file));
  });

  it('a passage of the store, its forecast in the store: its log goes with it, and the plan is that of the files', async () => {
    const octets = forecastOctets({ windKn });
    const file = writePassage({ forecast: octets });
    const folder = join(folderWith({}), 'store');
    const store = freshStore(folder);
    const added = await store.forecasts.add({ fileName: 'w.grib2', content: [octets], mostOctets: 1e9, atEpochMs: 1 });
    const json = readFileSync(file, 'utf8').replace('forecast.grib2', `store:${valueOf(added).hash}`);
    const source = { file: '/boat/bay.json', folder: '/boat', inPlaceOf: null };
    const taken = valueOf(store.documents.takeOver({ name: 'Across the "bay"', json, atEpochMs: 1, ...source }));
    const entry = { kind: 'note', atEpochMs: 1, writtenAtEpochMs: 1, json: LOG.trim() };
    valueOf(store.log.append({ passageNumber: taken.number, ...entry }));
    const { passage, log } = await moved('store:Across the "bay"', '--store', folder);
    expect(readFileSync(log ?? '', 'utf8')).toBe(LOG);
    expect(await planOf(passage)).toBe(await planOf(file));
    const unknown = await slatch('passage', 'export', 'store:Bay', '--store', folder, '--out', 'x.tar');
    expect(unknown).toMatchObject({ code: 1, out: '' });
    expect(unknown.err).toContain('Across the "bay"');
  });

  it('the demo: to the octet; its plan too, in the long run', async () => {
    const demo = join(projectFolder, 'sample-forecasts', 'demo-passage.json');
    const { passage } = await moved(demo);
    for (const name of ['demo-control.grib2', 'demo-members.grib2'])
      expect(readFileSync(join(passage, '..', name)).equals(readFileSync(join(demo, '..', name)))).toBe(true);
    expect(textHash(readFileSync(passage, 'utf8'))).toBe(textHash(readFileSync(demo, 'utf8')));
    if (!IS_LONG_RUN) return;
    const until = ['--until', '2026-05-28T06:00Z'];
    expect(await planOf(passage, ...until)).toBe(await planOf(demo, ...until));
  });

  it('a forecast that is not there, or an address: each named, and nothing is written', async () => {
    const file = writePassage({ passage: { forecasts: ['gone.grib2', 'http://example.org/a.grib2'] } });
    const out = join(folderWith({}), 'a.tar');
    const ran = await slatch('passage', 'export', file, '--out', out);
    expect(ran).toMatchObject({ code: 1, out: '' });
    expect(ran.err).toContain('gone.grib2: The passage names it, and there is no such file.');
    expect(ran.err).toContain('http://example.org/a.grib2: This is an address');
    expect(readdirSync(join(out, '..'))).toEqual([]);
  });

  it('an archive whose passage leads out of its folder: refused, and nothing is there', async () => {
    const secret = folderWith({ 'secret.grib2': forecastOctets() });
    const file = writePassage();
    const out = join(folderWith({}), 'a.tar');
    await slatch('passage', 'export', file, '--out', out);
    const unpacked = folderWith({});
    spawnSync('tar', ['-xf', out, '-C', unpacked]);
    const path = join(unpacked, 'passage.json');
    // The same length and a list that agrees: made on purpose.
    const evil = readFileSync(path, 'utf8').replace('"forecast.grib2"', JSON.stringify(join(secret, 'secret.grib2')));
    writeFileSync(path, evil);
    const manifest = JSON.parse(readFileSync(join(unpacked, 'MANIFEST.json'), 'utf8')) as {
      files: { name: string; sizeOctets: number; sha256: string }[];
    };
    const files = manifest.files.map((one) =>
      one.name === 'passage.json' ? { ...one, sizeOctets: Buffer.byteLength(evil), sha256: textHash(evil) } : one,
    );
    writeFileSync(join(unpacked, 'MANIFEST.json'), JSON.stringify({ ...manifest, files }));
    const names = ['passage.json', 'forecast.grib2', 'MANIFEST.json'];
    spawnSync('tar', ['--format=ustar', '-cf', 'evil.tar', ...names], { cwd: unpacked });
    const to = join(unpacked, 'in');
    const ran = await slatch('passage', 'import', join(unpacked, 'evil.tar'), '--to', to);
    expect(ran).toMatchObject({ code: 1, out: '' });
    expect(ran.err).toContain('which is not in the archive');
    expect(readdirSync(unpacked)).not.toContain('in');
  });

  it('into a folder that holds anything, or with what is no archive of a passage: refused', async () => {
    const file = writePassage();
    const out = join(folderWith({}), 'a.tar');
    await slatch('passage', 'export', file, '--out', out);
    const full = folderWith({ 'mine.txt': 'mine' });
    expect((await slatch('passage', 'import', out, '--to', full)).err).toContain('Name another folder with --to.');
    expect(readdirSync(full)).toEqual(['mine.txt']);
    const empty = join(full, 'empty');
    mkdirSync(empty);
    expect(await slatch('passage', 'import', file, '--to', empty)).toMatchObject({ code: 1, out: '' });
    expect(await slatch('passage', 'import', out, '--to', empty)).toMatchObject({ code: 0 });
    expect((await slatch('passage', 'export', file, '--out', out)).err).toContain('use --force');
    for (const args of [
      ['export', file],
      ['export', 'store:A', '--log', 'l', '--out', 'o'],
      ['import', out],
      ['import'],
    ])
      // oxlint-disable-next-line no-await-in-loop
      expect((await slatch('passage', ...args)).code, args.join(' ')).toBe(2);
  });
});
