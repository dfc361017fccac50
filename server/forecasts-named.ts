import type { Documents } from './documents/index.ts';

/** Versions looked through, the latest first: a passage is edited often, its forecasts seldom. */
const MOST_VERSIONS_COUNT = 200;

/** Forecasts that earlier versions of a document were planned with, the latest first; those of the present one too. */
export function forecastsNamed(
  documents: Pick<Documents, 'documentVersions' | 'documentVersionText'>,
  number: number,
): readonly string[] {
  const list = documents.documentVersions(number);
  if (!list.ok) return [];
  const latestFirst = list.value.toSorted((a, b) => b.version - a.version).slice(0, MOST_VERSIONS_COUNT);
  const named = latestFirst.flatMap(({ version }) => {
    const text = documents.documentVersionText({ number, version });
    return text.ok && text.value !== null ? namesIn(text.value) : [];
  });
  return [...new Set(named)];
}

function namesIn(json: string): string[] {
  const file: unknown = JSON.parse(json);
  if (typeof file !== 'object' || file === null || !('forecasts' in file) || !Array.isArray(file.forecasts)) return [];
  return (file.forecasts as readonly unknown[]).filter((name) => typeof name === 'string');
}
