import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';

/** Programs that tests compare with, and the Debian package that brings each. */
const packageOfTool = {
  aec: 'libaec-tools',
  chromium: 'chromium',
  grib_copy: 'libeccodes-tools',
  grib_dump: 'libeccodes-tools',
  grib_get: 'libeccodes-tools',
  grib_get_data: 'libeccodes-tools',
  grib_ls: 'libeccodes-tools',
  grib_set: 'libeccodes-tools',
} as const;

export type ReferenceTool = keyof typeof packageOfTool;

const reported = new Set<string>();

/**
 * Path of a reference program, or null with a printed line when it is not installed, so that the test can be skipped:
 * `describe.skipIf(referenceTool('grib_get_data') === null)`.
 *
 * Where SLATCH_REQUIRE_TOOLS or CI is set a missing program throws instead: nothing is skipped there unseen.
 */
export function referenceTool(
  name: ReferenceTool,
  environment: Readonly<Record<string, string | undefined>> = process.env,
): string | null {
  const found = (environment['PATH'] ?? '')
    .split(delimiter)
    .map((folder) => join(folder, name))
    .find(isProgram);
  if (found !== undefined) return found;
  const say = `${name} is not installed (Debian: apt-get install ${packageOfTool[name]})`;
  if (isSet(environment['SLATCH_REQUIRE_TOOLS']) || isSet(environment['CI'])) throw new Error(say);
  if (!reported.has(name)) console.warn(`skipped: ${say}`);
  reported.add(name);
  return null;
}

const isSet = (value: string | undefined): boolean => value !== undefined && !['', '0', 'false'].includes(value);

function isProgram(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
