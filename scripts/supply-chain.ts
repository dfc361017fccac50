/**
 * What the program is made of beside its own code: every package of the lock file with its licence, the findings of a check
 * of them, and what the registry knows against them.
 *
 *     npm run supply-chain -- [--all] [--no-audit]
 *
 * --all       names every package, not only how many there are of each licence
 * --no-audit  does not ask the registry, which needs the network
 *
 * Exit code 1: a licence that is not permissive, a package without a checksum, one that would run a program while it is
 * installed, or a known vulnerability. A registry that does not answer is said, and is no finding. The bill of materials
 * (CycloneDX) is npm's: `npm run --silent sbom`.
 */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { askForAudit, type Audit } from './supply-chain/audit.ts';
import { allowScriptsOf, installFindings } from './supply-chain/install-findings.ts';
import { licenceFindings, packagesByLicence } from './supply-chain/licences.ts';
import { lockedPackages, type LockedPackage } from './supply-chain/locked-packages.ts';

const FOLDER = resolve(import.meta.dirname, '..');
const { values } = parseArgs({
  options: { all: { type: 'boolean', default: false }, 'no-audit': { type: 'boolean', default: false } },
});

const readRoot = (name: string): string => readFileSync(resolve(FOLDER, name), 'utf8');
const packages = lockedPackages(readRoot('package-lock.json'));
const allowScripts = allowScriptsOf(readRoot('package.json'));

const print = (title: string, of: readonly LockedPackage[]): void => {
  console.log(`${title}: ${of.length} packages`);
  for (const [licence, names] of packagesByLicence(of))
    console.log(
      `  ${licence.padEnd(14)} ${String(names.length).padStart(4)}${values.all ? `  ${names.join(' ')}` : ''}`,
    );
};

const auditLines = (audit: Audit): readonly string[] => {
  if (audit.kind === 'unknown') return [`known vulnerabilities: unknown, the registry did not answer (${audit.why})`];
  const { vulnerabilities } = audit;
  return [`known vulnerabilities: ${vulnerabilities.length}`, ...vulnerabilities.map((one) => `  ${one}`)];
};

print(
  'needed to run',
  packages.filter(({ isForDevelopment }) => !isForDevelopment),
);
print(
  'for development and tests',
  packages.filter(({ isForDevelopment }) => isForDevelopment),
);
const findings = [...licenceFindings(packages), ...installFindings(packages, allowScripts)];
console.log(`findings: ${findings.length}`);
for (const finding of findings) console.log(`  ${finding}`);
const audit: Audit = values['no-audit'] ? { kind: 'unknown', why: 'not asked' } : askForAudit(FOLDER);
for (const line of auditLines(audit)) console.log(line);
const isBad = findings.length > 0 || (audit.kind === 'answered' && audit.vulnerabilities.length > 0);
process.exitCode = isBad ? 1 : 0;
