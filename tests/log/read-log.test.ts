import { describe, expect, test } from 'vitest';
import { formatLogEntry, parseLog, readLog } from '../../lib/log/index.ts';
import { entryOf, event, logOf, seen, slept } from './demo.ts';

// JSON Lines (jsonlines.org): UTF-8, one JSON value a line, lines end in LF (CRLF is read too), the last line end may be missing.

const ENTRIES = logOf(
  seen('27 18:30', { lat: -36.3, lon: 178.1, note: 'tør luft, 5 m sig' }),
  slept('27 10:30', '27 14:00'),
  event('drop', 'done', '28 01:10', { workedMin: 41, note: '風が落ちた 🌙' }),
);
const LINES = ENTRIES.map(({ entry }) => formatLogEntry(entry));
const TEXT = `${LINES.join('\n')}\n`;

describe('a log file', () => {
  test('line k is entry number k', () => {
    expect(parseLog(TEXT, 'log.jsonl')).toEqual({ ok: true, value: ENTRIES });
  });

  test('CRLF, a byte order mark, and no end of the last line: the same', () => {
    expect(parseLog(`\uFEFF${LINES.join('\r\n')}`, 'log.jsonl')).toEqual({ ok: true, value: ENTRIES });
  });

  test('empty: no entries', () => {
    expect(readLog('', 'log.jsonl')).toEqual({ entries: [], problems: [], torn: null });
  });

  test('torn at every octet: whole lines are used, the torn rest is said, nothing else is', () => {
    const octets = new TextEncoder().encode(TEXT);
    for (let cut = 0; cut <= octets.length; cut++) {
      const kept = octets.subarray(0, cut);
      const text = new TextDecoder().decode(kept);
      const { entries, problems, torn } = readLog(text, 'log.jsonl');
      const wholeCount = kept.filter((octet) => octet === 0x0a).length;
      const tail = text.slice(text.lastIndexOf('\n') + 1);
      const isWhole = tail === LINES[wholeCount];
      expect(problems).toEqual([]);
      expect(entries).toEqual(ENTRIES.slice(0, wholeCount + (isWhole ? 1 : 0)));
      expect(torn?.text ?? null).toBe(tail === '' || isWhole ? null : tail);
      const place = torn === null ? null : [torn.problem.code, torn.problem.where];
      expect(place).toEqual(torn === null ? null : ['log.torn', `log.jsonl, line ${wholeCount + 1}`]);
    }
  });

  test('zeros after the last line, as some disks leave them: torn', () => {
    const { entries, problems, torn } = readLog(`${TEXT}${'\0'.repeat(64)}`, 'log.jsonl');
    expect([entries.length, problems.length, torn?.problem.code]).toEqual([3, 0, 'log.torn']);
  });

  test('bad lines: each is named by its number, the others keep theirs', () => {
    const [first = '', second = '', third = ''] = LINES;
    const text = [first, '{"kind":"note"', '', second, '{"kind":"sleep","atUtc":"2026-05-27T10:00Z"}', third, ''].join(
      '\n',
    );
    const { entries, problems, torn } = readLog(text, 'log.jsonl');
    expect(problems.map(({ code, where }) => [code, where])).toEqual([
      ['log.not-json', 'log.jsonl, line 2'],
      ['log.line-empty', 'log.jsonl, line 3'],
      ['log.missing', 'log.jsonl, line 5, endUtc'],
    ]);
    expect(entries.map(({ number }) => number)).toEqual([1, 4, 6]);
    expect(torn).toBeNull();
    const strict = parseLog(text, 'log.jsonl');
    expect(strict.ok ? [] : strict.problems).toEqual(problems);
  });

  test('a last line that is whole JSON but no entry is wrong, not torn', () => {
    const { problems, torn } = readLog(`${TEXT}{"kind":"storm"}`, 'log.jsonl');
    expect([problems.map(({ where }) => where), torn]).toEqual([['log.jsonl, line 4, kind'], null]);
  });

  test('words of an entry may hold what ends lines elsewhere: they stay on one line', () => {
    const entry = entryOf({ kind: 'note', atUtc: '2026-05-27T10:00Z', note: 'a\u2028b' });
    expect(parseLog(`${formatLogEntry(entry)}\n`, 'log')).toEqual({ ok: true, value: [{ number: 1, entry }] });
  });
});
