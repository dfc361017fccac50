import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import type { Result } from '../../lib/result/index.ts';
import { openStore, type Store } from '../../server/stores/index.ts';

/** An empty folder that goes away with the test. */
export function freshFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'slatch-store-'));
  onTestFinished(() => {
    rmSync(folder, { recursive: true, force: true });
  });
  return folder;
}

/** An open store in an empty folder, closed and removed with the test. */
export function freshStore(folder: string = freshFolder()): Store {
  const store = valueOf(openStore(folder));
  onTestFinished(() => {
    store.close();
  });
  return store;
}

export function valueOf<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

/** Codes of the problems; none when all is well. */
export const codesOf = (result: Result<unknown>): readonly string[] =>
  result.ok ? [] : result.problems.map((problem) => problem.code);

export const aPassage = { name: 'Tasman', json: '{"slatch":1,"name":"Tasman"}', atEpochMs: 1_779_912_720_000 };

export const aPlan = {
  seed: 1,
  madeAtUtc: '2026-05-27T20:12Z',
  json: '{"seed":1}',
  writtenAtEpochMs: 1_779_912_720_001,
};
