/** Requests, folders and a world held still, for the tests of fetching. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  DEFAULT_LIMITS,
  type FetchRequest,
  type FetchTarget,
  realWorld,
  type World,
} from '../../server/fetchers/index.ts';
import type { Result } from '../../lib/result/index.ts';

const golden = (name: string): Uint8Array =>
  new Uint8Array(readFileSync(fileURLToPath(new URL(`../golden/${name}`, import.meta.url))));

/** Two steps of wind at 10 m, a run of the public model data described in tests/golden: GRIB2, four fields. */
export const GFS_WIND = golden('forecast/gfs_wind10m_20161120_0h_6h.grib2');
export const GFS_CYCLE_EPOCH_MS = Date.UTC(2016, 10, 20);

/** Messages of a file, by the lengths they write of themselves (WMO-No. 306, FM 92, section 0, octets 9 to 16). */
export function messagesOf(octets: Uint8Array): readonly Uint8Array[] {
  const view = new DataView(octets.buffer, octets.byteOffset, octets.length);
  const messages: Uint8Array[] = [];
  for (let at = 0; at < octets.length;) {
    const length = Number(view.getBigUint64(at + 8));
    messages.push(octets.subarray(at, at + length));
    at += length;
  }
  return messages;
}

export const joinOctets = (parts: readonly Uint8Array[]): Uint8Array => new Uint8Array(Buffer.concat(parts));

export interface Fixture {
  readonly folder: string;
  readonly outPath: string;
  remove(): void;
}

export function fixture(): Fixture {
  const folder = mkdtempSync(join(tmpdir(), 'slatch-fetch-'));
  return {
    folder,
    outPath: join(folder, 'out.grib2'),
    remove: () => {
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

export const whole = (url: string): FetchTarget => ({ url, index: null, cycleEpochMs: null, typicalOctets: null });

export function requestFor(at: Fixture, targets: readonly FetchTarget[], limits: Partial<FetchRequest['limits']> = {}) {
  return {
    targets,
    fileName: 'out.grib2',
    destination: { kind: 'file' as const, path: at.outPath },
    keepFolder: join(at.folder, 'keep'),
    mustHold: [],
    limits: { ...DEFAULT_LIMITS, connectMs: 2000, idleMs: 2000, ...limits },
  } satisfies FetchRequest;
}

/** A world whose clock only moves when it is slept in; sleeps are listed. */
export function stillWorld(): World & { readonly sleepsMs: number[] } {
  const sleepsMs: number[] = [];
  let nowEpochMs = Date.UTC(2026, 4, 27);
  return {
    fetch: realWorld.fetch,
    random: () => 0.5,
    nowEpochMs: () => nowEpochMs,
    sleep: (ms) => {
      sleepsMs.push(ms);
      nowEpochMs += ms;
      return Promise.resolve();
    },
    sleepsMs,
  };
}

export function codesOf<T>(result: Result<T>): readonly string[] {
  return result.ok ? [] : result.problems.map(({ code }) => code);
}

export function valueOf<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}
