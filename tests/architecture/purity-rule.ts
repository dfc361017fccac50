import { isNode, lineAt, walk, type Finding, type Node, type SourceFile } from './source-file.ts';

/** Globals that make a result depend on the machine or the moment, with what to do instead. */
const impureObjects: Readonly<Record<string, string>> = {
  process: 'take the value as an argument',
  console: 'return the text',
  performance: 'take the time as an argument',
  globalThis: 'take the value as an argument',
  crypto: 'take the seeded generator as an argument',
  Atomics: 'keep threads in server/',
};

const impureMembers: Readonly<Record<string, string>> = {
  'Date.now': 'take nowEpochMs as an argument',
  'Math.random': 'take the seeded generator as an argument',
  'DateTime.now': 'take nowEpochMs as an argument',
  'DateTime.local': 'use UTC',
  'import.meta': 'take the value as an argument',
};

const impureCalls: Readonly<Record<string, string>> = {
  Date: 'take nowEpochMs as an argument',
  fetch: 'fetch in server/fetchers',
  setTimeout: 'wait in server/',
  setInterval: 'wait in server/',
  setImmediate: 'wait in server/',
  queueMicrotask: 'wait in server/',
  require: 'use a static import',
};

/** Date methods that read the time zone of the machine, and texts that follow its language. */
const localMethods =
  /^(get(Hours|Minutes|Date|Day|Month|FullYear|TimezoneOffset)|set(Hours|Minutes|Date|Month|FullYear)|to(Locale(Date|Time)?String|DateString|TimeString))$/;

const nameOf = (value: unknown): string | null =>
  isNode(value) && value.type === 'Identifier' && typeof value['name'] === 'string' ? value['name'] : null;

/** Clock, randomness, environment and output in lib: by syntax tree, so that words in comments and texts do not count. */
export function purityFindings(files: readonly SourceFile[]): readonly Finding[] {
  return files
    .filter((file) => file.path.startsWith('lib/'))
    .flatMap((file) => {
      const declared = declaredNames(file);
      const findings: Finding[] = [];
      walk(file, (node) => {
        const found = impurity(node);
        if (found === null || declared.has(found.name.split('.')[0] ?? '')) return;
        findings.push({
          rule: 'pure-lib',
          path: `${file.path}:${lineAt(file, node)}`,
          say: `${found.name}: ${found.remedy}.`,
        });
      });
      return findings;
    });
}

interface Impurity {
  readonly name: string;
  readonly remedy: string;
}

function impurity(node: Node): Impurity | null {
  if (node.type === 'MemberExpression') return impureMember(node);
  if (node.type === 'MetaProperty') return named('import.meta', impureMembers);
  if (node.type === 'CallExpression') return named(nameOf(node['callee']), impureCalls);
  const isDateNow =
    node.type === 'NewExpression' && nameOf(node['callee']) === 'Date' && (node['arguments'] as unknown[]).length === 0;
  return isDateNow ? { name: 'new Date()', remedy: 'take nowEpochMs as an argument' } : null;
}

function impureMember(node: Node): Impurity | null {
  const object = nameOf(node['object']);
  const property = memberName(node);
  if (property !== null && localMethods.test(property))
    return { name: `.${property}`, remedy: 'use the UTC method, or formatAt of lib/time' };
  return named(`${object}.${property}`, impureMembers) ?? named(object, impureObjects);
}

/** Name of the member, whether written `a.b` or `a['b']`. */
function memberName(node: Node): string | null {
  const property = node['property'];
  if (isNode(property) && property.type === 'Literal') return String(property['value']);
  return nameOf(property);
}

function named(name: string | null, table: Readonly<Record<string, string>>): Impurity | null {
  const remedy = name !== null && Object.hasOwn(table, name) ? table[name] : undefined;
  return name === null || remedy === undefined ? null : { name, remedy };
}

/** Names the file itself binds, which therefore are not the globals. */
function declaredNames(file: SourceFile): ReadonlySet<string> {
  const names = new Set<string>();
  walk(file, (node, parents) => {
    const name = nameOf(node);
    const parent = parents.at(-1);
    if (name === null || parent === undefined) return;
    const binds =
      (parent.type === 'VariableDeclarator' && parent['id'] === node) ||
      parent.type === 'ImportSpecifier' ||
      (parent.type.includes('Function') && (parent['params'] as unknown[]).includes(node));
    if (binds && name !== 'DateTime' && name !== 'Date') names.add(name);
  });
  return names;
}
