import { describe, expect, it } from 'vitest';
import { assertNever, failed, formatProblem, ok, okUnless, type Problem } from '../../lib/result/index.ts';

const problem = (code: string): Problem => ({
  code,
  where: 'passage.json, jobs[2].priority',
  what: 'The priority is 12.',
  expected: 'a whole number from 1 to 9',
  remedy: 'Write 9 for what the passage depends on.',
});

describe('okUnless', () => {
  it('no problems: gives the value', () => {
    expect(okUnless([], () => 7)).toEqual(ok(7));
  });

  it('problems: gives all of them in order, and never asks for the value', () => {
    const result = okUnless([problem('a'), problem('b')], () => assertNever('asked' as never));
    expect(result).toEqual(failed(problem('a'), problem('b')));
  });
});

describe('formatProblem', () => {
  it('a problem: reads where, what, expected, remedy', () => {
    expect(formatProblem(problem('passage.priority'))).toBe(
      'passage.json, jobs[2].priority: The priority is 12. Expected a whole number from 1 to 9. ' +
        'Write 9 for what the passage depends on.',
    );
  });
});

describe('assertNever', () => {
  it('a case nobody handles: throws and names it', () => {
    expect(() => assertNever('drifting' as never)).toThrow('"drifting"');
  });
});
