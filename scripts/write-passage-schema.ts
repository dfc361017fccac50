/**
 * Writes the JSON Schema of the passage file; a test says when it is due.
 *
 * node --import tsx scripts/write-passage-schema.ts
 */
import { writeFile } from 'node:fs/promises';
import { passageJsonSchema } from '../lib/passage/index.ts';

await writeFile(
  new URL('../lib/passage/passage.schema.json', import.meta.url),
  `${JSON.stringify(passageJsonSchema(), null, 2)}\n`,
);
