/** Logs that lie: every line is answered for itself. Bounds are our own. */
import { describe, expect, test } from 'vitest';
import { readLog } from '../../lib/log/index.ts';

const NOTE = '{"kind":"note","atUtc":"2026-05-27T10:00Z","note":"a"}';

describe('readLog', () => {
  test('5000 bad lines and a good one: the good one is read, the first problems are named, the rest counted', () => {
    const { entries, problems, torn } = readLog(`${'x\n'.repeat(5000)}${NOTE}\n`, 'log.jsonl');
    expect([entries.map(({ number }) => number), torn]).toEqual([[5001], null]);
    expect(problems).toHaveLength(501);
    expect(problems[0]).toMatchObject({ code: 'log.not-json', where: 'log.jsonl, line 1' });
    expect(problems.at(-1)).toMatchObject({
      code: 'result.many-more',
      what: 'There are 4500 more problems, which are not listed.',
    });
  });

  test.each([
    ['a key twice', '{"kind":"note","atUtc":"2026-05-27T10:00Z","note":"a","note":"b"}', 'log.key-twice'],
    ['100 000 lists inside one another', `${'['.repeat(50_000)}${']'.repeat(49_000)}`, 'log.too-deep'],
    ['a line of a megabyte', `{"kind":"note","note":"${'x'.repeat(1_000_000)}"}`, 'log.too-large'],
    [
      'a number beyond all',
      '{"kind":"observation","atUtc":"2026-05-27T10:00Z","gustKn":1e999}',
      'log.number-too-large',
    ],
  ])('%s, in the last line without its end: wrong, not torn', (_, line, code) => {
    const { problems, torn, entries } = readLog(`${NOTE}\n${line}`, 'log.jsonl');
    expect(problems.map((one) => [one.code, one.where])).toEqual([[code, 'log.jsonl, line 2']]);
    expect([torn, entries.length]).toEqual([null, 1]);
  });
});
