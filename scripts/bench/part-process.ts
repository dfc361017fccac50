/** One part of the benchmark, in a process of its own: `node part-process.ts PART SCRATCH JSON [--quick]`. */
import { writeFileSync } from 'node:fs';
import { isPartName } from './bench-case.ts';
import { PARTS } from './parts.ts';

const [name = '', scratch = '', jsonPath = '', quick] = process.argv.slice(2);
if (!isPartName(name)) throw new Error(`${name} is no part of the benchmark`);
const result = await PARTS[name].measure({ isQuick: quick === '--quick', scratch });
writeFileSync(jsonPath, JSON.stringify(result));
