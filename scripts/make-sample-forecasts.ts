/**
 * Writes the invented forecasts of the demo passage; every run writes the same octets.
 *
 *   node --import tsx scripts/make-sample-forecasts.ts [--out DIR]
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { CONTROL_FILE, controlFile, MEMBERS_FILE, membersFile } from './sample-forecasts/build-samples.ts';

const { values } = parseArgs({
  options: { out: { type: 'string', default: resolve(import.meta.dirname, '../sample-forecasts') } },
});
mkdirSync(values.out, { recursive: true });
for (const [name, bytes] of [
  [CONTROL_FILE, controlFile()],
  [MEMBERS_FILE, membersFile()],
] as const) {
  writeFileSync(join(values.out, name), bytes);
  console.log(`${name}: ${bytes.length} octets`);
}
