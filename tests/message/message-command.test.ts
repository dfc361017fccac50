import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { messageCommand } from '../../scripts/commands/message.ts';
import { littlePlan } from './little-plan.ts';

// What the command prints of an invented plan and log; the words are ours.

const folder = mkdtempSync(join(tmpdir(), 'message-'));
afterAll(() => rmSync(folder, { recursive: true }));

const write = (name: string, content: string): string => {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
};

async function run(...args: readonly string[]): Promise<{ code: number; out: string; err: string }> {
  let [out, err] = ['', ''];
  const code = await messageCommand.run(args, {
    out: (text) => (out += text),
    err: (text) => (err += text),
    readFile: (path) => readFile(path),
    nowEpochMs: () => Date.UTC(2026, 4, 28, 12, 0, 40),
  });
  return { code, out, err };
}

const plan = write('plan.json', JSON.stringify(littlePlan()));
const key = write('key.txt', 'sixteen octets, at least\n');
const log = write(
  'log.jsonl',
  [
    { kind: 'observation', atUtc: '2026-05-28T11:30Z', lat: -35.97, lon: 179.9, pressureHpa: 1013 },
    { kind: 'job', atUtc: '2026-05-28T05:10Z', jobId: 'drop', event: 'done', workedMin: 130 },
  ]
    .map((entry) => `${JSON.stringify(entry)}\n`)
    .join(''),
);

describe('slatch message', () => {
  test('write plan: parts on standard output, lengths and the line in plain words on standard error', async () => {
    const { code, out, err } = await run('write', 'plan', plan, '--number', '7', '--counter', '7', '--sender', 'LW');
    expect(code).toBe(0);
    const parts = out.trim().split('\n');
    for (const part of parts) expect(part.length).toBeLessThanOrEqual(160);
    expect(parts[0]).toMatch(/^SL;P\.LW\.7\.1-\d;2605271800P7,F6,V041200,A79/);
    expect(err).toContain('part 1 of 2: 160 septets, 160 octets, one SMS');
    expect(err).toContain('No numbers to stop at are sent of jobs that are not planned');
    expect(err).toContain('If the key to the fields is lost, send: Plan 7 of Wed 27 May 18:00Z. drop Thu 28 May 02:00');
  });

  test('there and back, signed, with counters on both sides; the second time it is a duplicate, then an old message', async () => {
    const [ours, theirs] = [join(folder, 'ours.json'), join(folder, 'theirs.json')];
    const send = (): ReturnType<typeof run> => run('write', 'plan', plan, '--key', key, '--counters', ours);
    const [first, second] = [await send(), await send()];
    expect([first.out.slice(0, 10), second.out.slice(0, 10)]).toEqual(['SL;P.SH.1.', 'SL;P.SH.2.']);
    const read = (text: string): ReturnType<typeof run> => run('read', text, '--key', key, '--counters', theirs);
    const taken = await read(`Hello,\n${first.out}\nBye`);
    expect(taken.code).toBe(0);
    expect(taken.out).toContain(
      'plan 1 from SH: whole, 2 parts; signed with your key\nPlan without a number, made Wed 27',
    );
    expect((await read(first.out)).out).toContain('; the same as was taken before');
    expect((await read(second.out)).code).toBe(0);
    const old = await read(first.out);
    expect([old.code, old.out]).toEqual([1, '']);
    expect(old.err).toContain('A newer plan from SH was taken before: counter 2.');
    expect(JSON.parse(readFileSync(theirs, 'utf8'))).toMatchObject({ seen: { 'P.SH': { counterNumber: 2 } } });
    const used = await run('write', 'plan', plan, '--counter', '2', '--counters', ours);
    expect([used.code, used.err.split('\n')[0]]).toEqual([
      2,
      'slatch message write: --counter 2: 2 was sent already, expected a higher one.',
    ]);
  });

  test('what is refused is not counted: a damaged one leaves the counters as they were', async () => {
    const counters = join(folder, 'damaged.json');
    const { out } = await run('write', 'plan', plan, '--counter', '5');
    const damaged = await run('read', out.replace('DROP', 'DROQ'), '--counters', counters);
    expect(damaged.code).toBe(1);
    expect(damaged.err).toContain('Ask: send part 1 of 2 of plan 5 from SH again.');
    const whole = await run('read', out.replace('DROP', 'DROQ'), out, '--counters', counters, '--json');
    expect(whole.code).toBe(0);
    expect(JSON.parse(whole.out)).toMatchObject({
      messages: [{ kind: 'plan', verdict: 'new' }],
      refused: [],
      damaged: [],
    });
  });

  test('with a key, what is not signed is refused unless asked for', async () => {
    const { out } = await run('write', 'plan', plan, '--counter', '5');
    const refused = await run('read', out, '--key', key);
    expect([refused.code, refused.out]).toEqual([1, '']);
    expect(refused.err).toContain('is not signed');
    expect((await run('read', out, '--key', key, '--unsigned')).out).toContain(
      'not signed: anybody may have written it',
    );
  });

  test('a report from the log becomes entries of another log, once', async () => {
    const { code, out } = await run('write', 'report', '--log', log, '--note', 'All well');
    expect(code).toBe(0);
    const text = write('report.txt', out);
    const entries = await run('read', '--file', text, '--entries');
    expect(entries.out.trim().split('\n')).toHaveLength(3);
    const shore = write('shore.jsonl', entries.out);
    const again = await run('read', '--file', text, '--entries', '--log', shore);
    expect([again.code, again.out]).toEqual([0, '']);
  });

  test('small letters: refused with the way out, and read as capitals', async () => {
    const { out } = await run('write', 'report', '--log', log, '--counter', '2');
    const small = await run('read', out.toLowerCase());
    expect([small.code, small.out]).toEqual([1, '']);
    expect(small.err).toContain('--capitals');
    expect((await run('read', out.toLowerCase(), '--capitals')).code).toBe(0);
  });

  test('the key explains every letter that a plan and a report are written with, in lines a page can hold', async () => {
    const { code, out } = await run('key');
    expect(code).toBe(0);
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(125);
    for (const word of ['DDHHMM', 'S15.22.40', 'LSH33.40', 'W165.70', 'A-40.150.085.62', 'KS'])
      expect(out).toContain(word);
  });

  test.each([
    [['write', 'plan', plan, '--limit', '79'], '--limit 79: expected sms (160 septets)'],
    [['write', 'plan', plan, '--sender', 'lw'], '--sender lw: expected 1 to 4 capital letters and digits.'],
    [['write', 'letter'], '"letter": expected plan, report or digest.'],
    [['write', 'report'], '--log FILE.jsonl is missing.'],
    [['write', 'plan'], 'a passage file or a plan is missing.'],
    [['read', 'x', '--log', 'y'], '--log goes with --entries.'],
  ])('wrong use: %j', async (args, said) => {
    const { code, err } = await run(...args);
    expect(code).toBe(2);
    expect(err).toContain(said);
  });

  test('a short key, a plan that is none and counters that are none are refused', async () => {
    const short = await run(
      'write',
      'plan',
      plan,
      '--counter',
      '1',
      '--key',
      write('short.txt', 'fifteen octets.\r\n'),
    );
    expect([short.code, short.out]).toEqual([1, '']);
    expect(short.err).toContain('The key has 15 octets.');
    expect((await run('write', 'plan', write('no.json', '{}'), '--counter', '1')).code).toBe(1);
    const counters = await run('read', 'x', '--counters', write('c.json', '{"seen":{"P.LW":{"counterNumber":0}}}'));
    expect([counters.code, counters.out]).toEqual([1, '']);
  });
});
