import type { Source } from '../../lib/sources/index.ts';
import type { SourceFile } from '../architecture/source-file.ts';

const TABLE = 'lib/sources/sources.table.ts';

/** Ids a file uses: `sources.ID` in code or docstring, `sourceId: 'ID'` in data. */
export const usedIds = (text: string): readonly string[] =>
  [...text.matchAll(/(?:@see sources\.|\bsources\.(?=[A-Z]))([A-Za-z0-9_]+)|\bsourceId: '([^']*)'/g)].flatMap(
    ([, seen, given]) => seen ?? given ?? [],
  );

/** Ids without an entry, entries without a use, ids out of order or out of style, empty fields. */
export function sourceFindings(
  bibliography: Readonly<Record<string, Source>>,
  files: readonly SourceFile[],
): readonly string[] {
  const texts = files.filter(({ path }) => !path.startsWith('lib/sources/'));
  const ids = Object.keys(bibliography);
  const unknown = texts.flatMap(({ path, text }) =>
    usedIds(text)
      .filter((id) => !ids.includes(id))
      .map((id) => `${path}: source ${id} is not in ${TABLE}: add it there`),
  );
  const isUsed = (id: string): boolean =>
    texts.some(({ text }) => usedIds(text).includes(id) || text.includes(`'${id}'`));
  const entries = Object.entries(bibliography).flatMap(([id, source], index) => [
    ...(isUsed(id) ? [] : [`${TABLE}: ${id} is used nowhere in lib: remove it, or cite it where its figure stands`]),
    ...(index === 0 || (ids[index - 1] ?? '') < id ? [] : [`${TABLE}: ${id} is out of alphabetical order`]),
    ...(/^[A-Z][A-Z0-9]*(_[A-Z0-9]+)*$/.test(id) ? [] : [`${TABLE}: write ${id} in capitals with underscores`]),
    ...[source.title, source.who, source.where]
      .filter((field) => field.trim() === '')
      .map(() => `${TABLE}: ${id} has an empty field`),
  ]);
  return [...unknown, ...entries];
}
