/** Adds log entries without end and prints the number of each once the store has acknowledged it. */
import { writeSync } from 'node:fs';
import { openStore } from '../../server/stores/index.ts';

const opened = openStore(process.argv[2] ?? '');
if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
for (let i = 0; ; i++) {
  const json = JSON.stringify({ i, text: 'x'.repeat(i % 2_000) });
  const entry = opened.value.log.append({ passageNumber: 1, kind: 'note', atEpochMs: i, json, writtenAtEpochMs: i });
  if (!entry.ok) throw new Error(JSON.stringify(entry.problems));
  // Synchronous, so that a printed number is never more than what was acknowledged.
  writeSync(1, `${entry.value.number}\n`);
}
