import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { alertnessCommand } from '../../scripts/commands/alertness.ts';
import { checkDocument } from '../../scripts/check-values/registry.ts';

interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

async function run(...args: readonly string[]): Promise<Ran> {
  const said = { out: '', err: '' };
  const code = await alertnessCommand.run(args, {
    out: (text) => void (said.out += text),
    err: (text) => void (said.err += text),
    readFile: () => Promise.reject(new Error('no file is read')),
    nowEpochMs: () => 0,
  });
  return { code, ...said };
}

/** Scenario A of the reference run: three nights 23:30-07:00, body clock = UTC. */
const NIGHTS =
  '2026-01-01T23:30Z/2026-01-02T07:00Z,2026-01-02T23:30Z/2026-01-03T07:00Z,2026-01-03T23:30Z/2026-01-04T07:00Z';

describe('slatch alertness', () => {
  it('17 h awake after three nights (FIPS R package 0.2.1): S, alertness and KSS at midnight', async () => {
    const midnight = '2026-01-05T00:00Z';
    const { code, out } = await run('--sleep', NIGHTS, '--from', midnight, '--to', midnight, '--json');
    expect(code).toBe(0);
    const { rows } = JSON.parse(out) as { rows: readonly Record<string, number | string | boolean>[] };
    expect(rows).toHaveLength(1);
    expect(rows[0]).toMatchObject({ timeUtc: midnight, asleep: false, inStateH: 17 });
    expect(rows[0]?.['S']).toBeCloseTo(8.5746, 4);
    expect(rows[0]?.['alertness']).toBeCloseTo(7.0082, 4);
    expect(rows[0]?.['kss5c']).toBeCloseTo(6.4562, 4);
    expect(rows[0]?.['kssFips']).toBeCloseTo(6.3951, 4);
  });

  it('as a table: a header and a line every four hours, in order', async () => {
    const { code, out } = await run(
      '--sleep',
      NIGHTS,
      '--from',
      '2026-01-04T07:00Z',
      '--to',
      '2026-01-04T19:00Z',
      '--every-min',
      '240',
    );
    expect(code).toBe(0);
    const lines = out.trimEnd().split('\n');
    expect(lines[0]).toContain('KSS');
    expect(lines.at(-1)).toContain('COLREG Rule 5');
    expect(lines.slice(1, -2).map((line) => line.slice(0, 17))).toEqual([
      '2026-01-04T07:00Z',
      '2026-01-04T11:00Z',
      '2026-01-04T15:00Z',
      '2026-01-04T19:00Z',
    ]);
    expect(lines[1]).toMatch(/07:00 {2}awake/);
  });

  it('178 west: the body clock is twelve hours behind, less eight minutes', async () => {
    const at = ['--from', '2026-01-04T12:00Z', '--to', '2026-01-04T12:00Z', '--json'];
    const { out } = await run('--sleep', NIGHTS, '--lon', '-178', ...at);
    expect((JSON.parse(out) as { rows: { bodyClockH: number }[] }).rows[0]?.bodyClockH).toBeCloseTo(
      24 - 178 / 15 + 12 - 24,
      9,
    );
  });

  it('S above 12.2 at the start of a sleep: jumps only --as-published', async () => {
    const args = [
      '--sleep',
      '2026-01-01T08:00Z/2026-01-01T08:40Z',
      '--s0',
      '13',
      '--to',
      '2026-01-01T08:00Z',
      '--json',
    ];
    const sOf = ({ out }: Ran): number | undefined => (JSON.parse(out) as { rows: { S: number }[] }).rows[0]?.S;
    expect(sOf(await run(...args))).toBe(13);
    expect(sOf(await run(...args, '--as-published'))).toBeCloseTo(12.8653, 4);
  });

  it.each([
    ['sleeps that overlap', ['--sleep', '2026-01-01T00:00Z/2026-01-01T02:00Z,2026-01-01T01:00Z/2026-01-01T03:00Z']],
    ['a sleep that ends before it starts', ['--sleep', '2026-01-01T02:00Z/2026-01-01T00:00Z']],
    ['no interval', ['--sleep', 'yesterday']],
    ['an instant before the first sleep', ['--sleep', NIGHTS, '--from', '2026-01-01T00:00Z']],
  ])('%s: a problem on standard error, exit code 1', async (_, args) => {
    const { code, out, err } = await run(...args);
    expect(code).toBe(1);
    expect(out).toBe('');
    expect(err).toContain('Expected');
  });

  it.each([
    ['no sleep', []],
    ['an unknown option', ['--sleep', NIGHTS, '--nap']],
    ['a longitude of 200', ['--sleep', NIGHTS, '--lon', '200']],
    ['an end before the beginning', ['--sleep', NIGHTS, '--from', '2026-01-03T00:00Z', '--to', '2026-01-02T00:00Z']],
    ['two starts', ['--sleep', NIGHTS, '--s0', '8', '--start-alertness', '8']],
    ['a stray word', ['--sleep', NIGHTS, 'please']],
  ])('%s: wrong use, exit code 2, with the help', async (_, args) => {
    const { code, err } = await run(...args);
    expect(code).toBe(2);
    expect(err).toContain('slatch alertness --sleep');
  });

  it('--help: an example on standard output, exit code 0', async () => {
    const { code, out } = await run('--help');
    expect(code).toBe(0);
    expect(out).toContain('slatch alertness --sleep 2026-');
  });
});

describe('published values of the person room', () => {
  it('every item: agrees', () => {
    const document: unknown = JSON.parse(
      readFileSync(new URL('../golden/check-values/watchkeeper.json', import.meta.url), 'utf8'),
    );
    const report = checkDocument(document);
    expect(report.failures).toEqual([]);
    expect(report.unknown).toEqual([]);
    expect(report.passedIds.length).toBe(291);
  });
});
