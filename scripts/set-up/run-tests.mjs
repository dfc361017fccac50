import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { inProject, runProgram } from './project.mjs';

/** Runs vitest and ends with the line `N passed, N failed`; the exit code is vitest's. */
export async function runTests(args) {
  const folder = mkdtempSync(join(tmpdir(), 'slatch-tests-'));
  const reportPath = join(folder, 'report.json');
  try {
    const vitest = inProject('node_modules', 'vitest', 'vitest.mjs');
    const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${reportPath}`];
    const config = inProject('tests', 'vitest.config.ts');
    const code = await runProgram(process.execPath, [vitest, 'run', '-c', config, ...reporters, ...args]);
    console.log(closingLine(readReport(reportPath), code));
    return code;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** A run that ended without a report counts as one failure. */
function readReport(path) {
  return existsSync(path) ? JSON.parse(readFileSync(path, 'utf8')) : { numPassedTests: 0, testResults: [] };
}

/** Counts a file that failed without a failed test in it (it did not load) as one failure, and never a bad end as none. */
function closingLine(report, code) {
  const isBrokenFile = ({ status, assertionResults }) =>
    status === 'failed' && !assertionResults.some((result) => result.status === 'failed');
  const brokenCount = report.testResults.filter(isBrokenFile).length;
  const failedCount = (report.numFailedTests ?? 0) + brokenCount;
  const skippedCount = (report.numPendingTests ?? 0) + (report.numTodoTests ?? 0);
  const failed = code === 0 ? failedCount : Math.max(1, failedCount);
  const skipped = skippedCount === 0 ? '' : `, ${skippedCount} skipped`;
  return `${report.numPassedTests} passed, ${failed} failed${skipped}`;
}
