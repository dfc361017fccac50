/** What a store does while its process may write only short files (`ulimit -f`), and once it may write again; as JSON. */
import { execFileSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { valueOf } from '../../scripts/kill-store/contents.ts';
import { openStore } from '../../server/stores/index.ts';
import type { Result } from '../../lib/result/index.ts';

const codesOf = (result: Result<unknown>): readonly string[] =>
  result.ok ? [] : result.problems.map(({ code }) => code);

const [folder = ''] = process.argv.slice(2);
const store = valueOf(openStore(folder));
valueOf(store.passages.create({ name: 'Bay', json: '{}', atEpochMs: 1 }));

const append = (octets: number): readonly string[] => {
  const json = JSON.stringify({ text: 'x'.repeat(octets) });
  return codesOf(store.log.append({ passageNumber: 1, kind: 'note', atEpochMs: 1, json, writtenAtEpochMs: 1 }));
};
const add = async (octets: number): Promise<readonly string[]> => {
  const content = [new Uint8Array(octets)];
  return codesOf(await store.forecasts.add({ fileName: 'a', content, mostOctets: 1e9, atEpochMs: 1 }));
};

let acknowledgedCount = 0;
let refused: readonly string[] = [];
while (refused.length === 0 && acknowledgedCount < 1000) {
  refused = append(20_000);
  if (refused.length === 0) acknowledgedCount += 1;
}
const forecast = await add(2_000_000);
const kept = {
  logCount: valueOf(store.log.list(1)).length,
  gribFiles: readdirSync(join(folder, 'grib')),
};
execFileSync('prlimit', ['--pid', String(process.pid), '--fsize=unlimited']);
const again = [...append(20_000), ...(await add(2_000_000))];
const logCount = valueOf(store.log.list(1)).length;
console.log(JSON.stringify({ acknowledgedCount, refused, forecast, kept, again, logCount }));
