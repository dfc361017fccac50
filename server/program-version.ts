import { readFileSync } from 'node:fs';

/** Version of this program, as its package says. */
export function programVersion(): string {
  const text = readFileSync(new URL('../package.json', import.meta.url), 'utf8');
  const file: unknown = JSON.parse(text);
  return typeof file === 'object' && file !== null && 'version' in file ? String(file.version) : 'unknown';
}
