import { readFileSync } from 'node:fs';

/** Reads a golden file of this room; the caller says what it holds. */
export const golden = (name: string): unknown =>
  JSON.parse(readFileSync(new URL(`../golden/jobs/${name}.json`, import.meta.url), 'utf8'));
