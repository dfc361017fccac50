import { keyOf, type LockedPackage } from './locked-packages.ts';

/** Ask for no more than their text to be kept with copies. The fonts may be carried along, not sold by themselves. */
const PERMISSIVE: readonly string[] = [
  '0BSD',
  'Apache-2.0',
  'BlueOak-1.0.0',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'ISC',
  'MIT',
  'OFL-1.1',
];

/** Changes to their files must be given on; for tools that are used as they are and not handed on. */
const TOOLS_ONLY: readonly string[] = ['MPL-2.0'];

/** Licences that npm does not find where it looks: read in the package itself, of these versions. */
export const READ_IN_THE_PACKAGE: Readonly<Record<string, { readonly licence: string; readonly readIn: string }>> = {
  'busboy@1.6.0': { licence: 'MIT', readIn: 'package.json, "licenses"' },
  'streamsearch@1.1.0': { licence: 'MIT', readIn: 'package.json, "licenses"' },
  'suncalc@2.0.2': { licence: 'BSD-2-Clause', readIn: 'LICENSE' },
};

/** Names that are not in the SPDX list, by what their text is. */
const OTHER_NAMES: Readonly<Record<string, string>> = { 'BSD-0-Clause': '0BSD' };

/** SPDX id of the licence of a package; null: none is known. */
function licenceOf(one: LockedPackage): string | null {
  const stated = one.licence ?? READ_IN_THE_PACKAGE[keyOf(one)]?.licence ?? null;
  return stated === null ? null : (OTHER_NAMES[stated] ?? stated);
}

/** What stands against the licence of each package; empty: nothing. */
export const licenceFindings = (packages: readonly LockedPackage[]): readonly string[] =>
  packages.flatMap((one) => {
    const licence = licenceOf(one);
    if (licence === null) return [`${keyOf(one)}: it states no licence; read it in the package`];
    if (PERMISSIVE.includes(licence)) return [];
    if (one.isForDevelopment && TOOLS_ONLY.includes(licence)) return [];
    return [`${keyOf(one)}: ${licence} is not on the list of permissive licences`];
  });

/** Packages by licence, both by name. */
export function packagesByLicence(packages: readonly LockedPackage[]): ReadonlyMap<string, readonly string[]> {
  const groups = new Map<string, string[]>();
  for (const one of packages) {
    const licence = licenceOf(one) ?? 'none stated';
    groups.set(licence, [...(groups.get(licence) ?? []), keyOf(one)]);
  }
  return new Map([...groups].toSorted(([a], [b]) => (a < b ? -1 : 1)));
}
