/** README.md and DEVELOPERS.md say what is so: their examples run, their lists are those of the code. */
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { allowedRooms } from '../architecture/rooms.ts';
import { unitSuffixes } from '../architecture/unit-suffixes.ts';
import { slatch } from '../end-to-end/run-slatch.ts';
import { folderWith, removeFolders } from '../end-to-end/small-passage.ts';
import { codesIn, PREFIX, readDocument, root, sectionOf, shellLines, tableRows } from './document.ts';

afterAll(removeFolders);

const readme = readDocument('README.md');
const developers = readDocument('DEVELOPERS.md');

const examples = shellLines(readme).flatMap((line) => (line.startsWith(PREFIX) ? [line.slice(PREFIX.length)] : []));

/** Tried elsewhere: each makes a whole plan, reads what the reader has made, or leaves a file. */
const NOT_HERE = [
  'access-key ',
  'plan ',
  'plan-many ',
  'check ',
  'compare ',
  'sheet ',
  'store ',
  'passage ',
  'forecast cut ',
];
const isTriedElsewhere = (example: string): boolean => NOT_HERE.some((start) => example.startsWith(start));

const MESSAGE_LINES = /^(part \d+ of \d+: .*|Not signed: .*|If the key .*|Counter 1: .*)\n/gm;

describe('README.md, examples', () => {
  it.each(examples.filter((example) => !isTriedElsewhere(example)))(
    'slatch %s: prints something and ends with 0',
    async (example) => {
      const { code, out, err } = await slatch(...example.split(/\s+/));
      // A slow machine is told how far the reading of the forecast is.
      const said = err.replaceAll(/^reading the forecast: \d+ %\n/gm, '');
      // How long a message is stands beside it, so that what is printed can be sent as it is.
      const complaints = example.startsWith('message write ') ? said.replaceAll(MESSAGE_LINES, '') : said;
      expect({ code, complaints }).toEqual({ code: 0, complaints: '' });
      expect(out.split('\n').length).toBeGreaterThan(2);
    },
  );

  it('the passage in ten lines: is ten lines, and plans', async () => {
    const [, block = ''] = /^```json\n([\s\S]*?)^```$/m.exec(sectionOf(readme, 'Your own passage, in ten lines')) ?? [];
    expect(block.trimEnd().split('\n')).toHaveLength(10);
    const folder = folderWith({
      'my-passage.json': block,
      'demo-control.grib2': readFileSync(resolve(root, 'sample-forecasts/demo-control.grib2')),
    });
    const until = ['--now', '2026-05-27T18:00Z', '--until', '2026-05-28T06:00Z'];
    const { code, out, err } = await slatch('plan', join(folder, 'my-passage.json'), ...until);
    expect(code, err).toBe(0);
    expect(out).toContain('Torn leech, homeward');
    expect(out).toContain('Sew the tear by hand, on deck');
  });

  it('every command of the program has one', async () => {
    const { out: help } = await slatch('--help');
    const commands = [...help.matchAll(/^ {2}(\w+) {2}/gm)].map(([, name = '']) => name);
    expect(commands).toContain('plan');
    expect(commands.filter((name) => !examples.some((example) => example.startsWith(`${name} `)))).toEqual([]);
  });

  it('npm scripts it tells to run are there', () => {
    const { scripts } = JSON.parse(readDocument('package.json')) as { scripts: Record<string, string> };
    const named = [...`${readme}\n${developers}`.matchAll(/\bnpm (?:run )?(start|test|check)\b/g)].map(
      ([, name]) => name,
    );
    expect(new Set(named)).toEqual(new Set(['start', 'test', 'check']));
    expect([...new Set(named)].filter((name) => !(String(name) in scripts))).toEqual([]);
  });
});

describe.each(['README.md', 'DEVELOPERS.md'])('%s', (name) => {
  const text = readDocument(name);

  it('links lead to files that are there', () => {
    const links = [...text.matchAll(/\]\(([^)\s]+)\)/g)].map(([, link = '']) => link);
    const files = links.filter((link) => !/^[a-z]+:/.test(link) && !link.startsWith('#'));
    expect(files.length).toBeGreaterThan(0);
    const missing = files.filter(
      (link) => !existsSync(resolve(dirname(resolve(root, name)), link.replace(/#.*$/, ''))),
    );
    expect(missing).toEqual([]);
  });

  it('files named in backticks are there', () => {
    const paths = codesIn(text).filter((code) =>
      /^(lib|server|views|tests|scripts|sample-forecasts)\/[\w./-]+$/.test(code),
    );
    expect(paths.length).toBeGreaterThan(0);
    expect(paths.filter((path) => !existsSync(resolve(root, path)))).toEqual([]);
  });
});

describe('DEVELOPERS.md', () => {
  it('rooms and what they may import: as the architecture test has it', () => {
    const everyone = ['units', 'result', 'sources', 'time', 'weather', 'shape', 'csv'];
    const rows = tableRows(sectionOf(developers, 'Rooms').split('\n### ')[0] ?? '');
    const said: Record<string, readonly string[]> = Object.fromEntries(
      rows.map(([room = '', , imports = '']) => [codesIn(room)[0] ?? room, codesIn(imports).toSorted()] as const),
    );
    const isGround = (room: string): boolean => everyone.includes(room);
    const allowed = Object.entries(allowedRooms).map(([room, imports]) => [
      room,
      imports.filter((other) => isGround(room) || !isGround(other)).toSorted(),
    ]);
    expect(said).toEqual(Object.fromEntries(allowed));
  });

  it('unit suffixes: the closed list', () => {
    const [list = ''] = sectionOf(developers, 'Units')
      .split('\n')
      .filter((line) => line.startsWith('`Kn`'));
    expect(codesIn(list)).toEqual([...unitSuffixes]);
  });

  it('every decision has title, status, context, decision and consequences, and numbers run on', () => {
    const records = sectionOf(developers, 'Decisions').split(/^### /m).slice(1);
    expect(records.map((record) => Number.parseInt(record, 10))).toEqual(records.map((_, index) => index + 1));
    for (const record of records) {
      expect([...record.matchAll(/^- \*\*(\w+):\*\* /gm)].map(([, head]) => head)).toEqual([
        'Status',
        'Context',
        'Decision',
        'Consequences',
      ]);
    }
  });
});
