/** Says that it is ready, waits for a word on stdin, then opens the store, adds a log entry and prints its number. */
import { once } from 'node:events';
import { openStore } from '../../server/stores/index.ts';

console.log('ready');
await once(process.stdin, 'data');
const opened = openStore(process.argv[2] ?? '');
if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
const { passages, log } = opened.value;
passages.create({ name: 'Race', json: '{}', atEpochMs: 1 });
const entry = log.append({ passageNumber: 1, kind: 'note', atEpochMs: 1, json: '{}', writtenAtEpochMs: 1 });
console.log(entry.ok ? entry.value.number : JSON.stringify(entry.problems));
process.exit();
