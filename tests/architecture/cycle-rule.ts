import { allowedRooms } from './rooms.ts';
import { importsOf, type Finding, type SourceFile } from './source-file.ts';

/** Cycles between files, type-only imports included: each is reported once, as the way around. */
export function cycleFindings(files: readonly SourceFile[]): readonly Finding[] {
  const graph = new Map(files.map((file) => [file.path, targetsOf(file)]));
  return cyclesOf(graph).map((way) => ({
    rule: 'no-cycle',
    path: way[0] ?? '',
    say: `${way.join(' -> ')}: move what both need into a third file.`,
  }));
}

/** Cycles in the table of rooms itself. */
export function roomTableCycles(table: Readonly<Record<string, readonly string[]>> = allowedRooms): readonly string[] {
  return cyclesOf(new Map(Object.entries(table))).map((way) => way.join(' -> '));
}

const targetsOf = (file: SourceFile): string[] =>
  importsOf(file).flatMap(({ target }) => (target === null ? [] : [target]));

/** Depth-first; a way back to a name on the current path is a cycle. */
function cyclesOf(graph: ReadonlyMap<string, readonly string[]>): readonly (readonly string[])[] {
  const done = new Set<string>();
  const cycles: string[][] = [];
  const visit = (name: string, path: readonly string[]): void => {
    const at = path.indexOf(name);
    if (at >= 0) cycles.push([...path.slice(at), name]);
    if (at >= 0 || done.has(name)) return;
    for (const next of graph.get(name) ?? []) visit(next, [...path, name]);
    done.add(name);
  };
  for (const name of graph.keys()) visit(name, []);
  return cycles;
}
