/** What problems quote of an input is fit to be shown. General categories: Unicode Standard, chapter 4.5. */
import { describe, expect, it } from 'vitest';
import { didYouMean, failed, okUnless, type Problem, shownText } from '../../lib/result/index.ts';

const problem = (what: string): Problem => ({ code: 'a.b', where: 'a', what, expected: 'b', remedy: 'Do.' });

describe('shownText', () => {
  it.each([
    ['\u001B[31mred', '\\u{001B}[31mred'],
    ['a\u202Eb', 'a\\u{202E}b'],
    ['a\nb', 'a\\u{000A}b'],
    ['a\uD800b', 'a\\u{D800}b'],
    ['\u{E0041}', '\\u{E0041}'],
    ['Réef \u{1F30A}', 'Réef \u{1F30A}'],
  ])('%j: %s', (text, shown) => {
    expect(shownText(text, 100)).toBe(shown);
  });

  it('a text longer than told: its beginning and its end, no longer than told', () => {
    const shown = shownText(`begin${'x'.repeat(1_000_000)}end`, 100);
    expect(shown).toMatch(/^begin.* … .*end$/);
    expect(shown.length).toBeLessThanOrEqual(100);
    expect(shownText('\u202E'.repeat(1000), 100).length).toBeLessThanOrEqual(100);
  });
});

describe('a refusal', () => {
  it('a megabyte quoted, with a sign that turns the line: short, and without it', () => {
    const refused = failed(problem(`"\u202E${'x'.repeat(1_000_000)}" does not fit.`));
    expect(refused.problems[0].what).toMatch(/^"\\u\{202E\}x.*does not fit\.$/);
    expect(refused.problems[0].what.length).toBeLessThan(1000);
  });

  it('200 000 problems: the first of them, and how many more there are', () => {
    const refused = okUnless(
      Array.from({ length: 200_000 }, (_, i) => problem(`Problem ${i}.`)),
      () => null,
    );
    const problems = refused.ok ? [] : refused.problems;
    expect(problems).toHaveLength(502);
    expect(problems.at(0)?.what).toBe('Problem 0.');
    expect(problems.at(-1)?.code).toBe('result.many-more');
    expect(problems.at(-1)?.what).toContain('199499 more');
  });
});

describe('didYouMean', () => {
  it('a name of a million characters: near to none', () => {
    expect(didYouMean('x'.repeat(1_000_000), ['drop', 'stitch', 'hoist'])).toBeNull();
  });
});
