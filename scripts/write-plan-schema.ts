/**
 * Writes the JSON Schemas of the published plan and windows; a test says when they are due.
 *
 * node --import tsx scripts/write-plan-schema.ts
 */
import { writeFile } from 'node:fs/promises';
import { planJsonSchema, windowsJsonSchema } from '../lib/brief/index.ts';

const write = (name: string, schema: object): Promise<void> =>
  writeFile(new URL(`../lib/brief/${name}`, import.meta.url), `${JSON.stringify(schema, null, 2)}\n`);

await write('plan.schema.json', planJsonSchema());
await write('windows.schema.json', windowsJsonSchema());
