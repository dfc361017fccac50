import { z } from 'zod';
import { keyOf, type LockedPackage } from './locked-packages.ts';

/**
 * What stands against installing from the lock file alone: content held to nothing, and programs that would run meanwhile.
 *
 * @param allowScripts `allowScripts` of package.json; `false` for a package: its program is not run, and not needed
 */
export const installFindings = (
  packages: readonly LockedPackage[],
  allowScripts: Readonly<Record<string, boolean>>,
): readonly string[] =>
  packages.flatMap((one) => {
    const findings: string[] = [];
    if (one.integrity === null) findings.push(`${keyOf(one)}: no checksum`);
    if (one.hasInstallScript && allowScripts[one.name] !== false)
      findings.push(`${keyOf(one)}: would run a program while it is installed`);
    return findings;
  });

/** `allowScripts` of the text of package.json. */
export const allowScriptsOf = (manifestText: string): Readonly<Record<string, boolean>> =>
  z.object({ allowScripts: z.record(z.string(), z.boolean()).default({}) }).parse(JSON.parse(manifestText))
    .allowScripts;
