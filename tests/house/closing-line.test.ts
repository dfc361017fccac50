import { describe, expect, it } from 'vitest';
import { IS_LONG_RUN } from '../long-run.ts';
import { bootstrap, type Ended, type FreshProject, freshProject } from './fresh-project.ts';

const PASSED_FILE = { status: 'passed', assertionResults: [{ status: 'passed' }] };
const FAILED_FILE = { status: 'failed', assertionResults: [{ status: 'failed' }] };
const BROKEN_FILE = { status: 'failed', assertionResults: [] };

const report = (counts: object, ...testResults: readonly object[]): string =>
  JSON.stringify({ numPassedTests: 5, numFailedTests: 0, numPendingTests: 0, numTodoTests: 0, ...counts, testResults });

function installed(): FreshProject {
  const project = freshProject();
  project.install();
  return project;
}

async function testWith(text: string, code: number): Promise<Ended> {
  return installed().run(bootstrap('test'), { FAKE_REPORT: text, FAKE_VITEST_CODE: String(code) });
}

const lastLine = ({ out }: Ended): string | undefined => out.split('\n').at(-2);

describe('the closing line of npm test', () => {
  it.each([
    ['all pass', report({}, PASSED_FILE), 0, '5 passed, 0 failed'],
    ['one fails', report({ numFailedTests: 1 }, FAILED_FILE), 1, '5 passed, 1 failed'],
    ['some are skipped or to do', report({ numPendingTests: 2, numTodoTests: 1 }), 0, '5 passed, 0 failed, 3 skipped'],
    ['a file does not load', report({ numFailedTests: 1 }, FAILED_FILE, BROKEN_FILE), 1, '5 passed, 2 failed'],
    ['all pass but vitest ends badly', report({}, PASSED_FILE), 1, '5 passed, 1 failed'],
    ['vitest dies without a report', '', 134, '0 passed, 1 failed'],
  ])('%s: is the last line, and the exit code is that of vitest', async (_name, text, code, line) => {
    const ended = await testWith(text, code);
    expect(lastLine(ended)).toBe(line);
    expect(ended.code).toBe(code);
  });

  it('arguments: are passed on to vitest', async () => {
    const project = installed();
    await project.run(bootstrap('test', 'tests/geo', '-t', 'antimeridian'), { FAKE_REPORT: report({}) });
    expect(project.read('vitest-arguments.txt')).toMatch(/^run .* tests\/geo -t antimeridian$/);
  });
});

describe('npm run check', () => {
  it('all well: every step by name, tests last', async () => {
    const ended = await installed().run(bootstrap('check'), { FAKE_REPORT: report({}) });
    expect(ended.code).toBe(0);
    expect(ended.out.match(/^check: .*$/gm)).toEqual([
      'check: typecheck',
      'check: lint',
      'check: format:check',
      'check: knip',
      'check: tests',
    ]);
    expect(lastLine(ended)).toBe('5 passed, 0 failed');
  });

  it.each(IS_LONG_RUN ? ['typecheck', 'lint', 'format:check', 'knip'] : ['lint'])(
    '%s fails: stops there and names it',
    async (step) => {
      const ended = await installed().run(bootstrap('check'), { FAKE_FAIL: step });
      expect(ended.code).toBe(3);
      expect(ended.err).toContain(`check: ${step} failed`);
      expect(ended.out.split('\n').at(-2)).toBe(`check: ${step}`);
    },
  );

  it('tests fail: says so', async () => {
    const ended = await installed().run(bootstrap('check'), { FAKE_REPORT: report({}), FAKE_VITEST_CODE: '1' });
    expect(ended.code).toBe(1);
    expect(ended.err).toContain('check: tests failed');
  });
});
