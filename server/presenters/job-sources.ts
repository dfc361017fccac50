import { type Source, sources } from '../../lib/sources/index.ts';

/** Whose figures a text of provenance names, in words: `our default`, `“The Art of Seamanship” (R. Naranjo, 2014)`. */
export const provenanceText = (provenance: string): string =>
  provenance.replaceAll(SOURCE_ID, (id) => {
    const source = bibliography.get(id);
    return source === undefined ? id : `“${source.title}”, ${source.year}`;
  });

/** All works of the bibliography that texts of provenance name, each once, in the order named. */
export function worksNamed(provenances: readonly string[]): readonly string[] {
  const ids = provenances.flatMap((text) => text.match(SOURCE_ID) ?? []);
  return [...new Set(ids)].flatMap((id) => {
    const source = bibliography.get(id);
    return source === undefined ? [] : [`${source.title}. ${source.who}, ${source.year}. ${source.where}.`];
  });
}

const SOURCE_ID = /\b[A-Z][A-Z0-9_]{2,}\b/g;

const bibliography: ReadonlyMap<string, Source> = new Map(Object.entries(sources));
