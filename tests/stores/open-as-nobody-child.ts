/** Opens the store in the folder given and writes to it, without a superuser's rights, and prints the problem codes. */
import { openDatabase } from '../../server/stores/database.ts';
import { openStore } from '../../server/stores/index.ts';

// Loads the native part while it can still be read.
const loaded = openDatabase(':memory:');
if (loaded.ok) loaded.value.close();
if (process.getuid?.() === 0) process.setuid?.(65_534);

const opened = openStore(process.argv[2] ?? '');
const result = opened.ok ? opened.value.passages.create({ name: 'New', json: '{}', atEpochMs: 1 }) : opened;
console.log(result.ok ? 'written' : result.problems.map((problem) => problem.code).join(' '));
