import { writeFileSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { decodeWanted, type WantedField } from '../../lib/forecast/index.ts';
import { scanGrib } from '../../lib/grib/index.ts';
import { decodeOnThreads } from '../../server/decoding/decode-on-threads.ts';
import { decodeTasks } from '../../server/decoding/decode-tasks.ts';
import { readShared } from '../../server/decoding/index.ts';
import { readGoldenBytes } from '../grib/golden-files.ts';

/** Several packings, grids and messages, a bitmap, and two fields that are refused. */
const FILES = ['gefs_ens_simple.grib2', 'sh_bm_ccsds.grib2', 'step_60m.grib2', 'jma_tornado_runlength.bin'];

const tasks: readonly WantedField[] = FILES.flatMap((file) => {
  const bytes = readGoldenBytes(file);
  return scanGrib(bytes, file).fields.map((field) => ({ file: { name: file, bytes }, field, part: null }));
});
const expected = tasks.map((task) => decodeWanted(task, new Float64Array(task.field.pointCount)));

describe('decodeTasks', () => {
  it('few points: as decodePart, in order, with progress up to all points', async () => {
    const shares: number[] = [];
    const onProgress = ({ donePoints, allPoints }: { donePoints: number; allPoints: number }): number =>
      shares.push(donePoints / allPoints);
    expect(await decodeTasks(tasks, { threadCount: 4, onProgress })).toEqual(expected);
    expect(shares.length).toBe(tasks.length);
    expect(shares).toEqual(shares.toSorted((a, b) => a - b));
    expect(shares.at(-1)).toBe(1);
  });

  it('stopped after the third field: rejects with the reason, and decodes no more', async () => {
    const stop = new AbortController();
    let doneCount = 0;
    const onProgress = (): void => {
      doneCount += 1;
      if (doneCount === 3) stop.abort(new Error('the sailor went on deck'));
    };
    await expect(decodeTasks(tasks, { threadCount: 1, onProgress, signal: stop.signal })).rejects.toThrow(
      'the sailor went on deck',
    );
    expect(doneCount).toBe(3);
  });

  it('stopped before it began: rejects', async () => {
    const signal = AbortSignal.abort(new Error('never mind'));
    await expect(decodeTasks(tasks, { threadCount: 1, signal })).rejects.toThrow('never mind');
  });

  it('nothing to do: nothing', async () => {
    expect(await decodeTasks([], { threadCount: 2 })).toEqual([]);
  });
});

describe('decodeOnThreads', () => {
  it('two threads: the same values and problems, in the order of the tasks', async () => {
    let doneCount = 0;
    const onDone = (): void => void (doneCount += 1);
    expect(await decodeOnThreads(tasks, { threadCount: 2, onDone })).toEqual(expected);
    expect(doneCount).toBe(tasks.length);
  });

  it('stopped: the threads end, and it rejects with the reason', async () => {
    const stop = new AbortController();
    const onDone = (): void => stop.abort(new Error('enough'));
    await expect(decodeOnThreads(tasks, { threadCount: 2, onDone, signal: stop.signal })).rejects.toThrow('enough');
  });
});

describe('readShared', () => {
  let folder = '';
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'slatch-shared-'));
  });
  afterAll(() => rm(folder, { recursive: true }));

  it('a file: its octets, in memory that threads share', async () => {
    const path = join(folder, 'a.grib2');
    const octets = Uint8Array.from({ length: 100_000 }, (_, i) => i % 251);
    writeFileSync(path, octets);
    const read = await readShared(path);
    expect(read.buffer).toBeInstanceOf(SharedArrayBuffer);
    expect(Array.from(read)).toEqual(Array.from(octets));
  });

  it('an empty file: no octets', async () => {
    const path = join(folder, 'empty.grib2');
    writeFileSync(path, '');
    expect((await readShared(path)).length).toBe(0);
  });

  it('no such file: the error of the file system', async () => {
    await expect(readShared(join(folder, 'nowhere'))).rejects.toThrow(/ENOENT/);
  });
});
