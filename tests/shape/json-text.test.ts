/**
 * JSON that breaks or lies. Outside truth: RFC 8259 (sections 2 to 7, and 4 on names that are not unique), and the engine's
 * own `JSON.parse`, which must take what is taken here and refuse what is called no JSON here.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseJsonText } from '../../lib/shape/index.ts';

const as = { where: 'a.json', codeWord: 'passage', most: { characterCount: 400_000, remedy: 'Send less.' } };
const problemOf = (text: string): string => {
  const read = parseJsonText(text, as);
  return read.ok ? 'read' : `${read.problems[0].code} ${read.problems[0].where}: ${read.problems[0].what}`;
};

function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

const nested = (open: string, close: string, count: number): string => open.repeat(count) + close.repeat(count);

describe('parseJsonText', () => {
  it.each([
    ['{\n "a": 1,\n}', 'line 3, column 1', 'There is "}" where a key in quotation marks belongs.'],
    ['', 'line 1, column 1', 'The text is empty.'],
    ['[1 2]', 'line 1, column 4', 'There is "2" where a comma or the closing bracket belongs.'],
    ['{"a" 1}', 'line 1, column 6', 'There is "1" where a colon belongs.'],
    ['[1', 'line 1, column 3', 'The text ends where a comma or the closing bracket belongs.'],
    ['{"a":NaN}', 'line 1, column 6', 'There is "N" where a value belongs.'],
    ['["a]', 'line 1, column 2', 'The text that begins there has no closing quotation mark.'],
    ['["\\x"]', 'line 1, column 3', 'A backslash stands before something that cannot follow it.'],
    ['["a\tb"]', 'line 1, column 4', 'A text holds a line end or another control character as it is.'],
    ['[1]]', 'line 1, column 4', 'There is "]" where the end of the text belongs.'],
    ['[}', 'line 1, column 2', 'There is "}" where a value or "]" belongs.'],
    ['01', 'line 1, column 2', 'There is "1" where the end of the text belongs.'],
  ])('%j: %s, %s', (text, place, what) => {
    expect(isJson(text)).toBe(false);
    expect(problemOf(text)).toBe(`passage.not-json a.json, ${place}: The file is not JSON. ${what}`);
  });

  it('100 lists inside one another: read; 101, 100 000 and a million: refused, none of them by a stack that runs over', () => {
    expect(problemOf(nested('[', ']', 100))).toBe('read');
    expect(problemOf(nested('[', ']', 101))).toMatch(/^passage\.too-deep a\.json, line 1, column 101: More than 100 /);
    expect(problemOf(nested('[', ']', 100_000))).toMatch(/^passage\.too-deep/);
    expect(problemOf(nested('{"a":', '}', 50_000))).toMatch(/^passage\.too-deep/);
    expect(problemOf('['.repeat(1_000_000))).toMatch(/^passage\.too-large/);
  });

  it('a key twice in one object, once escaped: refused at the second; the same key in two objects: read', () => {
    expect(problemOf('{"noGo":20,\n"no\\u0047o":90}')).toBe(
      'passage.key-twice a.json, line 2, column 1: The key "noGo" stands there a second time.',
    );
    expect(problemOf('[{"a":1},{"a":{"a":2}}]')).toBe('read');
  });

  it('a number no computer holds: refused; the largest that one holds: read', () => {
    expect(problemOf('[1e309]')).toMatch(/^passage\.number-too-large a\.json, line 1, column 2/);
    expect(problemOf('[-1.7976931348623157e308,5e-324]')).toBe('read');
  });

  it('a byte order mark: passed over; a text too long: refused by its length alone', () => {
    expect(problemOf('\uFEFF{}')).toBe('read');
    expect(problemOf('x'.repeat(400_001))).toMatch(/^passage\.too-large a\.json: The file has 400001 characters/);
  });

  it('any value, written: read as it was', () => {
    const value = fc.jsonValue({ maxDepth: 5 });
    fc.assert(
      fc.property(value, fc.nat(3), (of, indent) => {
        const read = parseJsonText(JSON.stringify(of, null, indent), as);
        expect(read.ok ? read.value : read.problems).toEqual(JSON.parse(JSON.stringify(of)));
      }),
      { seed: 11, numRuns: 200 },
    );
  });

  it('a text with signs changed: called no JSON where the engine calls it so, and only there', () => {
    const signs = fc.constantFrom(
      '{',
      '}',
      '[',
      ']',
      '"',
      ',',
      ':',
      '\\',
      '0',
      '-',
      '.',
      'e',
      't',
      ' ',
      '\n',
      '\u0001',
      'é',
    );
    const text = fc.jsonValue({ maxDepth: 3 }).map((of) => JSON.stringify(of));
    fc.assert(
      fc.property(text, fc.nat(), signs, fc.nat(2), (whole, place, sign, cutCount) => {
        const at = place % (whole.length + 1);
        const changed = whole.slice(0, at) + sign + whole.slice(at + cutCount);
        const says = problemOf(changed);
        // What is too deep, twice there or too large is told before a fault that comes later.
        const called = says === 'read' ? true : says.startsWith('passage.not-json') ? false : isJson(changed);
        expect([changed, isJson(changed)]).toEqual([changed, called]);
      }),
      { seed: 12, numRuns: 1000 },
    );
  });
});
