import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { jobFile, libraryJobIds } from '../../lib/jobs/index.ts';
import { jobsCommand } from '../../scripts/commands/jobs.ts';

interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** The command, with files by their names beside those of the repository. */
async function run(args: readonly string[], files: Readonly<Record<string, string>> = {}): Promise<Ran> {
  const said = { out: '', err: '' };
  const code = await jobsCommand.run(args, {
    out: (text) => void (said.out += text),
    err: (text) => void (said.err += text),
    readFile: (path) => {
      const own = files[path];
      return Promise.resolve(own === undefined ? readFileSync(path) : new TextEncoder().encode(own));
    },
    nowEpochMs: () => 0,
  });
  return { code, ...said };
}

const DEMO = 'sample-forecasts/demo-passage.json';

const passageWith = (jobs: readonly object[]): string =>
  JSON.stringify({
    slatch: 1,
    name: 'Short passage',
    start: { timeUtc: '2026-06-01T00:00Z', lat: -36, lon: 178 },
    track: [
      { lat: -36, lon: 178 },
      { lat: -35, lon: 180 },
    ],
    boat: { speedTables: { 'full-main': [{ twaDeg: 90, twsKn: 10, boatSpeedKn: 6 }] } },
    jobs,
  });

describe('slatch jobs', () => {
  it('list: every library job in a line; of one group only those', async () => {
    const all = await run(['list']);
    expect(all.code).toBe(0);
    expect(all.out.trimEnd().split('\n')).toHaveLength(libraryJobIds.length + 1);
    const steering = await run(['list', '--group', 'steering', '--json']);
    const { jobs } = JSON.parse(steering.out) as { jobs: readonly { group: string }[] };
    expect(new Set(jobs.map(({ group }) => group))).toEqual(new Set(['steering']));
  });

  it('show: a card with steps, limits, waits and whose figures they are', async () => {
    const { code, out } = await run(['show', 'fastener-oil']);
    expect(code).toBe(0);
    expect(out).toMatch(/deck wind 15\/22\/28 kn/);
    expect(out).toMatch(/soak by itself: 6\/14\/48 h, counted as 24\.6 h/);
    expect(out).toMatch(/common practice, no source/);
  });

  it('show a job of a passage: what is not as in the library', async () => {
    const { code, out } = await run(['show', DEMO, '--job', 'stitch']);
    expect(code).toBe(0);
    expect(out).toMatch(/Not as in the library:/);
    expect(out).toMatch(/sew, session\.longestMin: 60 \(library 75\)/);
  });

  it('copy: an entry that a passage file takes, under its own id', async () => {
    const { code, out } = await run(['copy', 'batten-swap', '--id', 'batten-3']);
    expect(code).toBe(0);
    const entry: unknown = JSON.parse(out);
    expect(jobFile.parse(entry)).toMatchObject({ id: 'batten-3', from: 'batten-swap' });
    const shown = await run(['show', 'own.json', '--job', 'batten-3'], { 'own.json': passageWith([entry as object]) });
    expect(shown.out).toMatch(/name: .*|As in the library/);
    expect(shown.code).toBe(0);
  });

  it('chain: without an id all of them, with one its jobs as a passage file takes them', async () => {
    const all = await run(['chain']);
    expect(all.out).toMatch(/^one-drop: /);
    const { out } = await run(['chain', 'one-drop', '--only', 'stitch', '--prefix', 'a-']);
    const { jobs } = JSON.parse(out) as { jobs: readonly object[] };
    expect(jobs.map((job) => jobFile.parse(job).id)).toEqual(['a-drop', 'a-stitch', 'a-hoist', 'a-inspect']);
  });

  it('propose: the soak a later job needs, and what else to do on this drop', async () => {
    const jobs = [
      { id: 'drop', from: 'drop-main' },
      { id: 'bolt', from: 'gooseneck-bolt', after: ['drop'] },
      { id: 'hoist', from: 'hoist-main', after: ['bolt'] },
    ];
    const { code, out } = await run(['propose', 'own.json'], { 'own.json': passageWith(jobs) });
    expect(code).toBe(0);
    expect(out).toMatch(/Start “.*” now/);
    expect(out).toMatch(/While the mainsail is down/);
  });

  it.each([
    ['a library job that is none', ['show', 'stich-tear'], /Did you mean "stitch-tear"\?/],
    ['a job the passage has not', ['show', DEMO, '--job', 'stich'], /Did you mean "stitch"\?/],
    ['a link that is none', ['chain', 'one-drop', '--only', 'stich'], /Did you mean "stitch"\?/],
    ['a file that is not there', ['propose', 'no-such.json'], /cannot be read/],
  ] as const)('%s: one line with the remedy, exit code 1', async (_, args, wanted) => {
    const { code, err } = await run(args);
    expect(code).toBe(1);
    expect(err).toMatch(wanted);
  });

  it.each([
    ['no subcommand', []],
    ['one that is none', ['bake']],
    ['a group that is none', ['list', '--group', 'galley']],
    ['no passage', ['propose']],
    ['two jobs', ['show', 'a', 'b']],
  ] as const)('%s: wrong use, with help, exit code 2', async (_, args) => {
    const { code, err } = await run(args);
    expect(code).toBe(2);
    expect(err).toMatch(/slatch jobs/);
  });
});
