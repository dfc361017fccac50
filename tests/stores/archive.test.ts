/** Archives: against GNU tar, damaged ones, and ones made to do harm. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isSafeName } from '../../server/stores/archive/entry-name.ts';
import { MANIFEST_NAME, manifestText } from '../../server/stores/archive/manifest.ts';
import { type Archive, unpack, verify, withArchive } from '../../server/stores/archive/read-archive.ts';
import { isTarName, readTarHeader, tarHeader } from '../../server/stores/archive/tar-header.ts';
import { writeArchive } from '../../server/stores/archive/write-archive.ts';
import { sha256OfFile } from '../../server/stores/file-hash.ts';
import { ok, type Result } from '../../lib/result/index.ts';
import { codesOf, freshFolder, valueOf } from './store-fixture.ts';

const head = { slatch: 'passage', program: '0.1.0', madeAtEpochMs: Date.UTC(2026, 4, 27, 18) } as const;
const hasTar = spawnSync('tar', ['--version']).status === 0;

const tar = (folder: string, ...args: readonly string[]): string => {
  const ran = spawnSync('tar', args, { cwd: folder, encoding: 'utf8' });
  expect({ status: ran.status, stderr: ran.stderr }).toEqual({ status: 0, stderr: '' });
  return ran.stdout;
};

async function archiveIn(folder: string, files: Readonly<Record<string, Uint8Array>>): Promise<string> {
  const file = join(folder, 'a.tar');
  const toPack = Object.entries(files).map(([name, from]) => ({ name, from, expectedOctets: from.length }));
  valueOf(await writeArchive({ file, isReplacing: false }, head, toPack));
  return file;
}

const looked = (file: string): Promise<Result<Archive>> =>
  withArchive(file, 'passage', async (archive, handle) => {
    const verified = await verify({ archive, handle, where: file });
    return verified.ok ? ok(archive) : verified;
  });

/** An archive of bare entries, as somebody else may make one. */
function forged(entries: readonly (readonly [name: string, content: string, kind?: string])[]): Uint8Array {
  const blocks = entries.flatMap(([name, content, kind = '0']) => {
    const octets = Buffer.from(content);
    // The name may be one that we would never write.
    const header = Buffer.from(tarHeader({ name: 'x', sizeOctets: octets.length, modifiedEpochMs: 0 }));
    header.fill(0, 0, 100);
    header.write(name, 0, 'utf8');
    header.write(kind, 156);
    header.write('        ', 148);
    const sum = header.reduce((total, octet) => total + octet, 0);
    header.write(`${sum.toString(8).padStart(6, '0')}\0 `, 148);
    return [header, octets, Buffer.alloc((512 - (octets.length % 512)) % 512)];
  });
  return Buffer.concat([...blocks, Buffer.alloc(1024)]);
}

const forgedManifest = (files: readonly { name: string; sizeOctets: number; sha256: string }[]): string =>
  manifestText({ slatch: 'passage', format: 1, program: '0', madeAtUtc: '2026-05-27T18:00Z', remarks: [], files });

describe('an archive', () => {
  it.skipIf(!hasTar)('as GNU tar reads it: the same names, sizes and octets', async () => {
    const folder = freshFolder();
    const long = `forecasts/${'w'.repeat(60)}/${'x'.repeat(90)}.grib2`;
    const files = {
      'passage.json': Buffer.from('{}'),
      empty: new Uint8Array(),
      'Wetter für Süd.grib2': Buffer.alloc(512, 7),
      [long]: Buffer.alloc(300_001, 9),
    };
    const file = await archiveIn(folder, files);
    expect(tar(folder, '--quoting-style=literal', '-tf', file).trim().split('\n')).toEqual([
      ...Object.keys(files),
      MANIFEST_NAME,
    ]);
    mkdirSync(join(folder, 'out'));
    tar(folder, '-xf', file, '-C', 'out');
    for (const [name, octets] of Object.entries(files))
      expect(readFileSync(join(folder, 'out', name)).equals(octets), name).toBe(true);
    expect(tar(folder, '-tvf', file)).toContain('-rw-------');
    // Packed again by GNU tar it is read as before.
    tar(join(folder, 'out'), '--format=gnu', '-cf', '../again.tar', 'passage.json', MANIFEST_NAME);
    expect(codesOf(await looked(join(folder, 'again.tar')))).toEqual(Array(3).fill('archive.not-as-listed'));
    tar(join(folder, 'out'), '--format=ustar', '-cf', '../same.tar', ...Object.keys(files), MANIFEST_NAME);
    expect(codesOf(await looked(join(folder, 'same.tar')))).toEqual([]);
  });

  it('cut anywhere, or with an octet changed anywhere: refused, or what comes out is what went in', async () => {
    const folder = freshFolder();
    const contents = { 'passage.json': Buffer.from('{"slatch":1}'), 'a.grib2': Buffer.alloc(700, 3) };
    const file = await archiveIn(folder, contents);
    const whole = readFileSync(file);
    const other = join(folder, 'other.tar');
    const comesOut = async (octets: Uint8Array): Promise<boolean> => {
      writeFileSync(other, octets);
      const archive = await looked(other);
      // The list is not listed itself: only what it says of the files counts.
      return archive.ok && archive.value.entries.map(({ name }) => name).join() === 'passage.json,a.grib2';
    };
    expect(await comesOut(whole)).toBe(true);
    await fc.assert(
      fc.asyncProperty(fc.nat(whole.length - 1025), async (length) => {
        expect(await comesOut(whole.subarray(0, length))).toBe(false);
      }),
      { seed: 7, numRuns: 60 },
    );
    const content = { from: 512, to: 512 + contents['passage.json'].length };
    await fc.assert(
      fc.asyncProperty(fc.nat(content.to - content.from - 1), fc.integer({ min: 1, max: 255 }), async (at, flip) => {
        const octets = Buffer.from(whole);
        octets.writeUInt8((octets[content.from + at] ?? 0) ^ flip, content.from + at);
        expect(await comesOut(octets)).toBe(false);
      }),
      { seed: 8, numRuns: 30 },
    );
    // Anywhere at all: never a throw.
    await fc.assert(
      fc.asyncProperty(fc.nat(whole.length - 1), fc.integer({ min: 1, max: 255 }), async (at, flip) => {
        const octets = Buffer.from(whole);
        octets.writeUInt8((octets[at] ?? 0) ^ flip, at);
        expect(typeof (await comesOut(octets))).toBe('boolean');
      }),
      { seed: 9, numRuns: 150 },
    );
  });

  it.each([
    '../outside',
    '/etc/passwd',
    'a/../../b',
    'a//b',
    './a',
    'C:evil',
    '..\\evil',
    'a\nb',
    'nul.txt',
    '-rf',
    '.profile',
    'a/',
    'a\u202Eb',
  ])('with a file called %j: refused, nothing is written', async (name) => {
    const folder = freshFolder();
    const file = join(folder, 'evil.tar');
    const sha256 = 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855';
    const manifest = forgedManifest([{ name, sizeOctets: 0, sha256 }]);
    writeFileSync(
      file,
      forged([
        [name, ''],
        [MANIFEST_NAME, manifest],
      ]),
    );
    expect(codesOf(await looked(file))).toEqual(['archive.name']);
    expect(readdirSync(folder)).toEqual(['evil.tar']);
  });

  it.each([
    ['1', 'a hard link'],
    ['2', 'a symbolic link'],
    ['3', 'a device'],
    ['6', 'a pipe'],
    ['L', 'a long name of GNU tar'],
    ['x', 'an extension of pax'],
  ])('with an entry of kind %s, %s: refused', async (kind) => {
    const file = join(freshFolder(), 'evil.tar');
    writeFileSync(
      file,
      forged([
        ['a', '', kind],
        [MANIFEST_NAME, forgedManifest([])],
      ]),
    );
    expect(codesOf(await looked(file))).toEqual(['archive.entry']);
  });

  it('two names that one file system takes for one: refused', async () => {
    const file = join(freshFolder(), 'evil.tar');
    writeFileSync(
      file,
      forged([
        ['Wind.grib2', ''],
        ['wind.grib2', ''],
        [MANIFEST_NAME, forgedManifest([])],
      ]),
    );
    expect(codesOf(await looked(file))).toEqual(['archive.name']);
  });

  it('without its list, with a list that is none, of another kind, of a later format: each by name', async () => {
    const folder = freshFolder();
    const file = join(folder, 'a.tar');
    const codes = async (octets: Uint8Array): Promise<readonly string[]> => {
      writeFileSync(file, octets);
      return codesOf(await looked(file));
    };
    expect(await codes(forged([['a', 'b']]))).toEqual(['archive.manifest-missing']);
    expect(await codes(forged([[MANIFEST_NAME, '{']]))).toEqual(['archive.manifest']);
    const list = forgedManifest([]);
    expect(await codes(forged([[MANIFEST_NAME, list.replace('"passage"', '"store"')]]))).toEqual(['archive.kind']);
    expect(await codes(forged([[MANIFEST_NAME, list.replace('"format": 1', '"format": 2')]]))).toEqual([
      'archive.newer',
    ]);
    expect(
      await codes(
        forged([
          ['a', 'b'],
          [MANIFEST_NAME, list],
        ]),
      ),
    ).toEqual(['archive.not-as-listed']);
    expect(await codes(Buffer.from('PK'))).toEqual(['archive.damaged']);
    expect(await codes(Buffer.alloc(5000, 65))).toEqual(['archive.damaged']);
    expect(codesOf(await looked(folder))).toEqual(['file.unreadable']);
    expect(codesOf(await looked(join(folder, 'nowhere')))).toEqual(['file.unreadable']);
  });

  it('that claims eight gigabytes in a kilobyte: refused at once', async () => {
    const file = join(freshFolder(), 'a.tar');
    const header = tarHeader({ name: 'a', sizeOctets: 8 ** 11 - 1, modifiedEpochMs: 0 });
    writeFileSync(file, Buffer.concat([header, Buffer.alloc(1024)]));
    expect(codesOf(await looked(file))).toEqual(['archive.cut']);
  });

  it('unpacked where a link lies in the way: the link is not followed', async () => {
    const folder = freshFolder();
    const file = await archiveIn(folder, { 'a.grib2': Buffer.from('wind') });
    mkdirSync(join(folder, 'out'));
    writeFileSync(join(folder, 'outside'), 'mine');
    symlinkSync('../outside', join(folder, 'out', 'a.grib2'));
    const unpacked = withArchive(file, 'passage', (archive, handle) =>
      unpack({ archive, handle, where: file }, join(folder, 'out')),
    );
    await expect(unpacked).rejects.toThrow('EEXIST');
    expect(readFileSync(join(folder, 'outside'), 'utf8')).toBe('mine');
  });

  it('written where a file is: left as it is, unless it is to be replaced; a file that shrinks leaves none', async () => {
    const folder = freshFolder();
    const file = await archiveIn(folder, {});
    const before = await sha256OfFile(file);
    expect(codesOf(await writeArchive({ file, isReplacing: false }, head, []))).toEqual(['file.exists']);
    expect(await sha256OfFile(file)).toBe(before);
    const toPack = { name: 'a', from: join(folder, 'gone'), expectedOctets: 1 };
    expect(codesOf(await writeArchive({ file, isReplacing: true }, head, [toPack]))).toEqual(['archive.not-packed']);
    expect(await sha256OfFile(file)).toBe(before);
    writeFileSync(join(folder, 'there'), 'x');
    const there = { name: 'a', from: join(folder, 'there'), expectedOctets: 1 };
    valueOf(await writeArchive({ file, isReplacing: true }, head, [there]));
    expect(await sha256OfFile(file)).not.toBe(before);
    expect(readdirSync(folder).toSorted()).toEqual(['a.tar', 'there']);
    for (const nowhere of [join(folder, 'none', 'a.tar'), folder])
      expect(codesOf(await writeArchive({ file: nowhere, isReplacing: true }, head, []))).toEqual(['file.not-written']);
  });
});

describe('tarHeader', () => {
  it('any name that fits and any size: read back as written', () => {
    const name = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 90 }).filter((text) => !text.includes('\0'));
    fc.assert(
      fc.property(name, fc.nat(2 ** 33 - 1), (text, sizeOctets) => {
        fc.pre(isTarName(text));
        const header = readTarHeader(tarHeader({ name: text, sizeOctets, modifiedEpochMs: 1e12 }));
        expect(header).toEqual({ name: text, sizeOctets, kind: 'file' });
      }),
      { seed: 1, numRuns: 300 },
    );
  });

  it('a safe name: stays below its folder whatever it is', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 40 }), (text) => {
        fc.pre(isSafeName(text));
        expect(join('/folder', text).startsWith('/folder/')).toBe(true);
        expect(text).not.toMatch(/^[-.]|[\\:*?"<>|]|\p{Cc}|\p{Cf}/u);
      }),
      { seed: 2, numRuns: 2000 },
    );
  });
});
