import { readFileSync } from 'node:fs';

/** Reads a golden file; the caller says what it holds. */
export const golden = (path: string): unknown =>
  JSON.parse(readFileSync(new URL(`../golden/${path}.json`, import.meta.url), 'utf8'));
