import { isNode, lineAt, walk, type Finding, type Node, type SourceFile } from './source-file.ts';
import { namesOfRoom, plainNames, publishedNames, unitSuffixes } from './unit-suffixes.ts';

const endsInUnit = new RegExp(`[a-z0-9](?:${unitSuffixes.join('|')})$`);
const lowerFirst = (word: string): string => word.slice(0, 1).toLowerCase() + word.slice(1);
const wholeNames = new Set(unitSuffixes.filter((suffix) => suffix.length > 2).map(lowerFirst));

/** Whether a number of this name says its unit, or needs none. */
export const saysUnit = (name: string): boolean =>
  name.replace(/^_/, '').length <= 1 ||
  endsInUnit.test(name) ||
  wholeNames.has(name) ||
  plainNames.has(name) ||
  publishedNames.has(name);

/** Number properties and number parameters in lib whose name does not say the unit. */
export function unitSuffixFindings(files: readonly SourceFile[]): readonly Finding[] {
  return files
    .filter((file) => file.path.startsWith('lib/'))
    .flatMap((file) => {
      const ownNames = namesOfRoom[file.path.split('/')[1] ?? ''] ?? new Set();
      const findings: Finding[] = [];
      walk(file, (node, parents) => {
        const name = numberName(node, parents);
        if (name === null || saysUnit(name) || ownNames.has(name)) return;
        findings.push({
          rule: 'unit-in-the-name',
          path: `${file.path}:${lineAt(file, node)}`,
          say: `${name} is a number without a unit: end its name in a suffix of tests/architecture/unit-suffixes.ts.`,
        });
      });
      return findings;
    });
}

/** Name of the number this node declares as a property or a parameter; null when it declares none. */
function numberName(node: Node, parents: readonly Node[]): string | null {
  if (node.type === 'TSPropertySignature' && isNumber(node['typeAnnotation']))
    return hasUnitBeside(node, parents) ? null : keyName(node['key']);
  if (node.type !== 'Identifier' || !isNumber(node['typeAnnotation'])) return null;
  const [owner, inner] = [parents.at(-1), parents.at(-2)];
  const isParameter =
    isParameterOf(owner, node) || (owner?.type === 'AssignmentPattern' && isParameterOf(inner, owner));
  const list = isParameterOf(owner, node) ? owner : inner;
  return isParameter && !hasParameter(list, 'unit') ? keyName(node) : null;
}

const isParameterOf = (owner: Node | undefined, node: Node): boolean =>
  owner !== undefined && Array.isArray(owner['params']) && owner['params'].includes(node);

const hasParameter = (list: Node | undefined, name: string): boolean =>
  Array.isArray(list?.['params']) && list['params'].some((parameter) => keyName(parameter) === name);

/** `{ amount: number; unit: string }` says its unit in `unit`; `windKn: { p10: number }` in the name that holds it. */
function hasUnitBeside(node: Node, parents: readonly Node[]): boolean {
  const body = parents.at(-1);
  const siblings = body === undefined ? [] : [body['members'], body['body']].flat().filter(isNode);
  if (siblings.some((sibling) => keyName(sibling['key']) === 'unit')) return true;
  const holder = parents.findLast((parent) => parent.type === 'TSPropertySignature' && parent !== node);
  const holderName = keyName(holder?.['key']);
  return body?.type === 'TSTypeLiteral' && holderName !== null && endsInUnit.test(holderName);
}

function keyName(key: unknown): string | null {
  if (!isNode(key)) return null;
  const name = key.type === 'Identifier' ? key['name'] : key['value'];
  return typeof name === 'string' ? name : null;
}

/** `number`, or a union of it with null and undefined. */
function isNumber(annotation: unknown): boolean {
  if (!isNode(annotation)) return false;
  if (annotation.type === 'TSTypeAnnotation') return isNumber(annotation['typeAnnotation']);
  const members = annotation['types'];
  if (annotation.type === 'TSUnionType' && Array.isArray(members)) return members.some(isNumber);
  return annotation.type === 'TSNumberKeyword';
}
