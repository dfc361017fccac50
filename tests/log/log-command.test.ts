import { spawnSync } from 'node:child_process';
import { appendFileSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeEach, describe, expect, test } from 'vitest';
import { logCommand } from '../../scripts/commands/log.ts';
import { projectFolder } from '../architecture/source-file.ts';

// What the command writes and prints of an invented log; JSON Lines as of jsonlines.org, CSV as of RFC 4180.

const folder = mkdtempSync(join(tmpdir(), 'log-'));
afterAll(() => rmSync(folder, { recursive: true }));
const DEMO = fileURLToPath(new URL('../../sample-forecasts/demo-passage.json', import.meta.url));
let [log, logNumber] = ['', 0];
beforeEach(() => {
  log = join(folder, `${++logNumber}.jsonl`);
});

async function run(...args: readonly string[]): Promise<{ code: number; out: string; err: string }> {
  let [out, err] = ['', ''];
  const code = await logCommand.run(args, {
    out: (text) => (out += text),
    err: (text) => (err += text),
    readFile: (path) => readFile(path),
    nowEpochMs: () => Date.UTC(2026, 4, 28, 12),
  });
  return { code, out, err };
}

const add = (...args: readonly string[]) => run('add', '--log', log, ...args);
const linesOf = (): unknown[] =>
  readFileSync(log, 'utf8')
    .split('\n')
    .filter((line) => line !== '')
    .map((line): unknown => JSON.parse(line));

describe('slatch log add', () => {
  test('the file is made, entries are numbered, and stand there as given', async () => {
    const first = await add('--position', '35-12S 178-30E', '--wind-kn', '9', '--wind-from', '210', '--rain', 'no');
    const second = await add('--sleep', '2026-05-28T02:00Z/2026-05-28T05:30Z', '--note', 'broken');
    const third = await add('--job', 'drop', '--event', 'stopped', '--worked-min', '20', '--at', '2026-05-28T09:00Z');
    expect([first, second, third].map(({ code }) => code)).toEqual([0, 0, 0]);
    expect(first.out).toBe(`1  2026-05-28T12:00Z  35°12.0'S 178°30.0'E, wind 9 kn from 210 deg true, no rain\n`);
    expect(second.out).toContain('slept 3 h 30 min until 28 May 05:30Z (broken)');
    expect(third.out).toMatch(/^3 {2}/);
    expect(linesOf()).toEqual([
      {
        kind: 'observation',
        atUtc: '2026-05-28T12:00Z',
        lat: -35.2,
        lon: 178.5,
        rain: false,
        wind: { kind: 'true', speedKn: 9, fromDegTrue: 210 },
      },
      { kind: 'sleep', atUtc: '2026-05-28T02:00Z', endUtc: '2026-05-28T05:30Z', note: 'broken' },
      { kind: 'job', atUtc: '2026-05-28T09:00Z', jobId: 'drop', event: 'stopped', workedMin: 20 },
    ]);
  });

  test('--json: number and entry', async () => {
    const { out } = await add(
      '--apparent-kn',
      '30',
      '--apparent-deg',
      '-40',
      '--heading',
      '240',
      '--boat-kn',
      '6',
      '--json',
    );
    expect(JSON.parse(out)).toEqual({
      number: 1,
      entry: {
        kind: 'observation',
        atUtc: '2026-05-28T12:00Z',
        wind: { kind: 'apparent', speedKn: 30, angleDeg: -40, headingDegTrue: 240, boatSpeedKn: 6 },
      },
    });
  });

  test('a correction keeps what is not given anew, its time too; one that withdraws says why', async () => {
    await add('--pressure-hpa', '1012', '--air-c', '14', '--at', '2026-05-28T06:00Z');
    await add('--corrects', '1', '--pressure-hpa', '1021');
    await add('--corrects', '1', '--at', '2026-05-28T07:00Z', '--note', 'wrong clock');
    await add('--corrects', '1', '--withdraw', '--note', 'another boat');
    const before = { kind: 'observation', atUtc: '2026-05-28T06:00Z', pressureHpa: 1021, airC: 14 };
    const correction = { kind: 'correction', atUtc: '2026-05-28T12:00Z', corrects: 1 };
    expect(linesOf().slice(1)).toEqual([
      { ...correction, by: before },
      { ...correction, by: { ...before, atUtc: '2026-05-28T07:00Z' }, note: 'wrong clock' },
      { ...correction, by: null, note: 'another boat' },
    ]);
    const { out } = await run('list', '--log', log);
    expect(out.split('\n')[0]).toContain('[withdrawn by 4]');
  });

  test.each([
    [['--lat', '91'], 1, 'lat'],
    [['--lat', '-36'], 1, 'latitude without a longitude'],
    [['--air-c', '12', '--at', '2026-05-29T00:00Z'], 1, 'still to come'],
    [['--corrects', '4', '--withdraw'], 1, 'no entry 4'],
    [['--air-c', 'warm'], 2, '--air-c warm: expected a number'],
    [['--wind-from', '210'], 2, '--wind-from needs --wind-kn'],
    [['--apparent-kn', '12'], 2, 'apparent wind needs'],
    [['--air-c', '12', '--job', 'drop'], 2, 'write two entries'],
    [['--sleep', '2026-05-28T02:00Z'], 2, 'START/END'],
    [['--withdraw'], 2, '--withdraw needs --corrects'],
    [[], 2, 'nothing is given'],
  ])('%j: exit code %d, and nothing is written', async (args, code, says) => {
    const ran = await add(...args);
    expect([ran.code, existsSync(log)]).toEqual([code, false]);
    expect(ran.err).toContain(says);
  });

  test('with a passage: its jobs, steps and clock count', async () => {
    const wrong = await run('add', DEMO, '--log', log, '--job', 'dorp', '--event', 'done');
    expect([wrong.code, wrong.err]).toEqual([1, expect.stringContaining('Did you mean "drop"?')]);
    const later = await run('add', DEMO, '--log', log, '--job', 'drop', '--event', 'done', '--at', '2026-05-28T01:00Z');
    expect([later.code, later.err]).toEqual([1, expect.stringContaining('still to come')]);
    const right = await run(
      'add',
      DEMO,
      '--log',
      log,
      '--now',
      '2026-05-28T02:00Z',
      '--job',
      'drop',
      '--event',
      'done',
    );
    expect(right.code).toBe(0);
    expect(linesOf()).toEqual([{ kind: 'job', atUtc: '2026-05-28T02:00Z', jobId: 'drop', event: 'done' }]);
  });

  test('after a torn line: it is taken out and said, and the numbers go on', async () => {
    await add('--air-c', '12');
    appendFileSync(log, Buffer.from('{"kind":"note","atUtc":"2026-05-28T11:00Z","note":"tør').subarray(0, -1));
    const { code, out, err } = await add('--air-c', '13');
    expect([code, out.slice(0, 3)]).toEqual([0, '2  ']);
    expect(err).toContain('had been torn');
    expect(linesOf()).toHaveLength(2);
  });

  test('a last line that lacks only its end stays', async () => {
    writeFileSync(log, '{"kind":"note","atUtc":"2026-05-28T11:00Z","note":"whale"}');
    expect((await add('--air-c', '13')).out.slice(0, 3)).toBe('2  ');
    expect(linesOf()).toHaveLength(2);
  });

  test('after a bad line: said, and the number is that of the line', async () => {
    writeFileSync(log, '{"kind":"not"}\n');
    const { code, out, err } = await add('--air-c', '13');
    expect([code, out.slice(0, 3)]).toEqual([0, '2  ']);
    expect(err).toContain('line 1');
  });

  test('a folder that is not there: exit code 1, and it says so', async () => {
    const { code, err } = await run('add', '--log', join(folder, 'none', 'log.jsonl'), '--air-c', '13');
    expect([code, err]).toEqual([1, expect.stringContaining('cannot be written')]);
  });

  test('--stdin: one entry as JSON, in a process of its own', () => {
    const input = '{"kind":"note","atUtc":"2026-05-28T11:00Z","note":"tør luft"}';
    const args = ['scripts/slatch.mjs', 'log', 'add', '--log', log, '--now', '2026-05-28T12:00Z', '--stdin'];
    const ran = spawnSync(process.execPath, args, { cwd: projectFolder, input, encoding: 'utf8' });
    expect([ran.status, ran.stdout]).toEqual([0, '1  2026-05-28T11:00Z  tør luft\n']);
    expect(readFileSync(log, 'utf8')).toBe(`${input}\n`);
  });
});

describe('slatch log list, state and csv', () => {
  const fill = async (): Promise<void> => {
    await add('--lat', '-36.4', '--lon', '178.5', '--at', '2026-05-27T20:00Z', '--note', '=1+1, "quoted"');
    await add('--job', 'drop', '--event', 'started', '--at', '2026-05-27T20:00Z');
    await add('--job', 'drop', '--event', 'safe-point', '--at', '2026-05-27T21:10Z');
    await add('--corrects', '3', '--at', '2026-05-27T21:20Z');
  };

  test('list: every entry, the correction beside what it corrects', async () => {
    await fill();
    const { code, out } = await run('list', '--log', log);
    const lines = out.trimEnd().split('\n');
    expect([code, lines.length]).toEqual([0, 4]);
    expect(lines[2]).toBe('3  2026-05-27T21:10Z  drop safe point  [corrected by 4: 27 May 21:20Z drop safe point]');
    const json = JSON.parse((await run('list', '--log', log, '--json')).out) as { entries: object[] };
    expect(json.entries[2]).toMatchObject({ number: 3, correctedByNumber: 4, isWithdrawn: false });
  });

  test('list: bad lines on standard error and exit code 1; a torn one is only said', async () => {
    await fill();
    writeFileSync(log, `${readFileSync(log, 'utf8')}{"kind":"note"`);
    const torn = await run('list', '--log', log);
    expect([torn.code, torn.err]).toEqual([0, expect.stringContaining('breaks off')]);
    writeFileSync(log, `${readFileSync(log, 'utf8')}\n`);
    const bad = await run('list', '--log', log);
    expect([bad.code, bad.err, bad.out.split('\n').length]).toEqual([1, expect.stringContaining('line 5'), 5]);
  });

  test('state: where she is, what is set, how far every job is', async () => {
    await fill();
    const args = ['state', DEMO, '--log', log, '--now', '2026-05-27T22:00Z'];
    const { code, out } = await run(...args);
    expect(code).toBe(0);
    expect(out).toContain(`Position 36°24.0'S 178°30.0'E at 27 May 20:00Z.`);
    expect(out).toMatch(/Sails: .* since 27 May 21:20Z/);
    expect(out).toMatch(/ {2}Drop and lash the mainsail: under way since 27 May 20:00Z, 4 of 6 steps finished/);
    const json = JSON.parse((await run(...args, '--json')).out) as { jobs: object[] };
    expect(json).toMatchObject({
      nowUtc: '2026-05-27T22:00Z',
      start: { timeUtc: '2026-05-27T20:00Z', lat: -36.4, lon: 178.5, sailState: 'headsail-only' },
    });
    expect(json.jobs).toContainEqual(
      expect.objectContaining({ jobId: 'drop', status: 'under-way', safePointStepId: 'tame' }),
    );
  });

  test('csv: a header with units, rows of as many cells, quotes doubled, no formula', async () => {
    await fill();
    const { out } = await run('csv', '--log', log);
    const [header = '', first = ''] = out.split('\r\n');
    expect(header.split(',')).toEqual(
      expect.arrayContaining(['at_utc', 'wind_kn', 'pressure_hpa', 'sea_height_m', 'worked_min']),
    );
    expect(first).toContain(`"'=1+1, ""quoted"""`);
    expect(out.endsWith('\r\n')).toBe(true);
  });

  test.each([
    [['list'], 2, '--log'],
    [['state', '--log', 'x.jsonl'], 2, 'no passage'],
    [['list', '--log', join(tmpdir(), 'no-such-log.jsonl')], 1, 'cannot be read'],
    [['burn'], 2, 'expected add, list, state'],
  ])('%j: exit code %d', async (args, code, says) => {
    const ran = await run(...args);
    expect([ran.code, ran.err]).toEqual([code, expect.stringContaining(says)]);
  });
});
