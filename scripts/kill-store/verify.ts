/** What is asked of a store after a kill; each fault is a sentence. */
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { checkStore, openStore } from '../../server/stores/index.ts';
import { contentsOf, valueOf } from './contents.ts';
import type { Acknowledged } from './lines.ts';

/** Writes in flight when a worker is killed: one may be on the disk and not said. */
const MOST_UNSAID_COUNT = 1;

/** Opens the store again, as the next start does, and holds it against what was acknowledged. */
export async function faultsOf(folder: string, acknowledged: Acknowledged): Promise<readonly string[]> {
  const opened = openStore(folder);
  if (!opened.ok) return opened.problems.map(({ code, what }) => `it cannot be opened: ${code} ${what}`);
  const store = opened.value;
  const contents = contentsOf(store);
  store.close();
  const faults = [...contentFaults(contents, acknowledged), ...gapFaults([...contents.keys()]), ...partFaults(folder)];
  const report = valueOf(await checkStore(folder));
  faults.push(...report.faults.map(({ code, where, what }) => `${code}: ${where}: ${what}`));
  const serverNote = new Set(['store.open-to-others', 'store.server-killed', 'store.forecast-unlisted']);
  faults.push(
    ...report.notes.filter(({ code }) => !serverNote.has(code)).map(({ code, where }) => `${code}: ${where}`),
  );
  adopt(contents, acknowledged);
  return faults;
}

function contentFaults(contents: ReadonlyMap<string, string>, acknowledged: Acknowledged): readonly string[] {
  const faults: string[] = [];
  const kept = acknowledged.kept();
  let unsaidCount = [...contents.keys()].filter((key) => !acknowledged.knows(key)).length;
  for (const { key, mark } of kept) {
    const found = contents.get(key);
    if (found === undefined) faults.push(`${key} was acknowledged and is gone`);
    else if (found !== mark && !key.startsWith('view ')) faults.push(`${key} was acknowledged and is another`);
    else if (Number(found) < Number(mark)) faults.push(`${key} is older than what was acknowledged`);
    else if (found !== mark) unsaidCount += Number(found) - Number(mark);
  }
  if (unsaidCount > MOST_UNSAID_COUNT) faults.push(`${unsaidCount} things are there that nobody was told of`);
  return faults;
}

/** What was on the disk and not said is known from now on; what was on its way out and is gone, is gone. */
function adopt(contents: ReadonlyMap<string, string>, acknowledged: Acknowledged): void {
  const unsaid = [...contents].filter(([key]) => !acknowledged.knows(key) || key.startsWith('view '));
  acknowledged.take(unsaid.map(([key, mark]) => ({ say: 'kept', key, mark })));
  acknowledged.settle((key) => contents.has(key));
}

/** Numbers of versions, log, plans and counters run from 1 without gaps. */
function gapFaults(keys: readonly string[]): readonly string[] {
  const series = new Map<string, number[]>();
  for (const key of keys) {
    const [, name = '', number = ''] = /^(version \d+|log \d+|plan \d+|message sent \w+ \w+)[. ](\d+)$/.exec(key) ?? [];
    if (name !== '') series.set(name, [...(series.get(name) ?? []), Number(number)]);
  }
  return [...series].flatMap(([name, numbers]) =>
    Math.max(...numbers) === numbers.length
      ? []
      : [`${name}: ${numbers.length} of them, up to ${Math.max(...numbers)}`],
  );
}

function partFaults(folder: string): readonly string[] {
  const folders = [folder, join(folder, 'grib')].filter((one) => existsSync(one));
  return folders.flatMap((one) =>
    readdirSync(one)
      .filter((name) => name.includes('.part'))
      .map((name) => `${name} is left after opening`),
  );
}
