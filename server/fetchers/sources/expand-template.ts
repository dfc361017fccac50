import { didYouMean, okUnless, type Problem, type Result } from '../../../lib/result/index.ts';
import { shownAddress } from './shown-address.ts';

/** Fields a template may name, with what stands for them. */
export interface TemplateFields {
  readonly cycleEpochMs: number;
  readonly stepH: number;
  /** Name of the member in addresses, such as `p01`; null: no ensemble, or all members in one file. */
  readonly memberName: string | null;
  /** Number of the member, 0 the control run. */
  readonly memberNumber: number | null;
  /** Name of the parameter where each has its own file. */
  readonly param: string | null;
}

/** `{name}` of letters; every other brace is taken as it stands. */
const FIELD = /\{([A-Za-z]+)\}/g;
const NAMES = ['yyyy', 'mm', 'dd', 'hh', 'f', 'ff', 'fff', 'member', 'nn', 'param', 'PARAM'];

/**
 * An address from its template: `{yyyy} {mm} {dd} {hh}` of the cycle in UTC, `{f} {ff} {fff}` the step [h] in at least so
 * many digits, `{member}`, `{nn}` the member's number in two digits, `{param}` and `{PARAM}` (in capitals).
 *
 * @returns `source.field-unknown` | `source.field-empty` (a member in a source without) | `source.not-http`
 */
export function expandTemplate(template: string, fields: TemplateFields, where: string): Result<string> {
  const values = valuesOf(fields);
  const problems = [...templateProblems(template, where)];
  const address = template.replace(FIELD, (whole, name: string) => {
    const value = values.get(name);
    if (value === null) problems.push(emptyField(name, where));
    return value ?? whole;
  });
  return okUnless(problems, () => address);
}

/** What is wrong with a template before anything is filled in. */
export function templateProblems(template: string, where: string): readonly Problem[] {
  const unknown = [...template.matchAll(FIELD)].map(([, name = '']) => name).filter((name) => !NAMES.includes(name));
  const problems = [...new Set(unknown)].map((name) => unknownField(name, where));
  return isHttp(template) ? problems : [...problems, notHttp(template, where)];
}

/** Whether a text is an address that may be fetched: HTTP or HTTPS, without a name and password in it. */
export function isHttp(address: string): boolean {
  if (!/^https?:\/\//i.test(address)) return false;
  try {
    const { username, password } = new URL(address.replaceAll(FIELD, '0'));
    return username === '' && password === '';
  } catch {
    return false;
  }
}

function valuesOf(fields: TemplateFields): ReadonlyMap<string, string | null> {
  const { cycleEpochMs, stepH, memberName, memberNumber, param } = fields;
  const iso = new Date(cycleEpochMs).toISOString();
  const step = (digitCount: number): string => String(stepH).padStart(digitCount, '0');
  const inAddress = (text: string | null): string | null => (text === null ? null : encodeURIComponent(text));
  return new Map([
    ['yyyy', iso.slice(0, 4)],
    ['mm', iso.slice(5, 7)],
    ['dd', iso.slice(8, 10)],
    ['hh', iso.slice(11, 13)],
    ['f', step(1)],
    ['ff', step(2)],
    ['fff', step(3)],
    ['member', inAddress(memberName)],
    ['nn', memberNumber === null ? null : String(memberNumber).padStart(2, '0')],
    ['param', inAddress(param)],
    ['PARAM', inAddress(param?.toUpperCase() ?? null)],
  ]);
}

function unknownField(name: string, where: string): Problem {
  const near = didYouMean(name, NAMES);
  return {
    code: 'source.field-unknown',
    where,
    what: `There is no field {${name}}.`,
    expected: `one of ${NAMES.map((known) => `{${known}}`).join(' ')}`,
    remedy: near === null ? 'Take it out.' : `Did you mean {${near}}?`,
  };
}

const emptyField = (name: string, where: string): Problem => ({
  code: 'source.field-empty',
  where,
  what: `The address names {${name}}, and there is none here.`,
  expected: name.toLowerCase() === 'param' ? 'a key "param" for every message wanted' : 'a source with members',
  remedy:
    name.toLowerCase() === 'param' ? 'Add the key, or take the field out.' : 'Add members, or take the field out.',
});

const shortened = (text: string): string => (text.length <= 80 ? text : `${text.slice(0, 77)}...`);

export const notHttp = (address: string, where: string): Problem => ({
  code: 'source.not-http',
  where,
  what: `"${shortened(shownAddress(address))}" is not an address that can be fetched.`,
  expected: 'an address that begins with https:// or http://, without a password in it',
  remedy: 'Correct the address.',
});
