import { readFileSync } from 'node:fs';
import { DEFAULT_HANDLINGS, DEFAULT_SAIL_STATES } from '../../lib/boat/index.ts';

/** Every id and item name of a passage file, wherever it stands, and those of every boat. */
export const idsIn = (passagePath: string): ReadonlySet<string> =>
  new Set([
    ...namesIn(JSON.parse(readFileSync(passagePath, 'utf8'))),
    ...[...DEFAULT_HANDLINGS, ...DEFAULT_SAIL_STATES].map(({ id }) => id),
  ]);

function namesIn(value: unknown): readonly string[] {
  if (Array.isArray(value)) return value.flatMap(namesIn);
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) =>
    typeof inner === 'string' && ['id', 'item'].includes(key) ? [inner] : namesIn(inner),
  );
}
