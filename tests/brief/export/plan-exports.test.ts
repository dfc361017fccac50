import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Passage } from '../../../lib/passage/index.ts';
import { takeApart, WrongUse } from '../../../scripts/commands/arguments.ts';
import type { CommandIo } from '../../../scripts/commands/command.ts';
import {
  EXPORT_OPTIONS,
  exportHelp,
  type ExportTargets,
  exportTargets,
  isOnStandardOutput,
  writeExports,
} from '../../../scripts/commands/plan-exports.ts';
import { checkPassage, readPassageText } from '../../../server/stores/passage-files.ts';
import { plan } from './exports-fixture.ts';
import { readCalendar, textOf } from './read-calendar.ts';
import { readCsv } from './read-csv.ts';

const DEMO = fileURLToPath(new URL('../../../sample-forecasts/demo-passage.json', import.meta.url));
let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'exports-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

async function demoPassage(): Promise<Passage> {
  const text = await readPassageText(DEMO);
  const passage = text.ok ? await checkPassage(text.value) : text;
  if (!passage.ok) throw new Error(passage.problems[0].what);
  return passage.value;
}

function targetsOf(...args: readonly string[]): ExportTargets {
  const kinds = Object.fromEntries(EXPORT_OPTIONS.map((name) => [name, 'text' as const]));
  const given = takeApart(args, { ...kinds, json: 'flag' });
  if (typeof given === 'string') throw new WrongUse(given);
  return exportTargets(given);
}

async function run(targets: ExportTargets): Promise<{ code: number; out: string; err: string }> {
  const said = { out: '', err: '' };
  const io: CommandIo = {
    out: (text) => void (said.out += text),
    err: (text) => void (said.err += text),
    readFile: () => Promise.reject(new Error('nothing is read')),
    nowEpochMs: () => Date.UTC(2026, 4, 27, 20, 15),
  };
  const code = await writeExports(io, targets, { plan, passage: await demoPassage() });
  return { code, ...said };
}

describe('writeExports', () => {
  it('every export into its file, with the names of the passage, and nothing beside them', async () => {
    const [ics, gpx, csv, bill] = ['plan.ics', 'plan.gpx', 'plan.csv', 'bill.txt'].map((name) => join(folder, name));
    const targets = targetsOf(`--ics=${ics}`, `--gpx=${gpx}`, `--csv=${csv}`, `--watch-bill=${bill}`);
    expect(await run(targets)).toEqual({ code: 0, out: '', err: '' });
    expect(readdirSync(folder).toSorted()).toEqual(['bill.txt', 'plan.csv', 'plan.gpx', 'plan.ics']);
    const events = readCalendar(readFileSync(join(folder, 'plan.ics'), 'utf8')).components;
    expect(
      events.some((event) => textOf(event, 'DESCRIPTION').includes('Run off before the wind, headsail only')),
    ).toBe(true);
    expect(readFileSync(join(folder, 'plan.gpx'), 'utf8')).toContain('<rtept lat="-36.300000" lon="178.100000">');
    expect(readCsv(readFileSync(join(folder, 'plan.csv'), 'utf8'))).toHaveLength(plan.entries.length + 1);
    expect(readFileSync(join(folder, 'bill.txt'), 'utf8')).toContain('WATCH BILL');
  });

  it('- is standard output', async () => {
    const targets = targetsOf('--csv', '-');
    expect(isOnStandardOutput(targets)).toBe(true);
    const { code, out } = await run(targets);
    expect(code).toBe(0);
    expect(readCsv(out)).toHaveLength(plan.entries.length + 1);
  });

  it('a file that stands there is replaced whole', async () => {
    const file = join(folder, 'plan.csv');
    writeFileSync(file, 'x'.repeat(1_000_000));
    await run(targetsOf(`--csv=${file}`));
    expect(readCsv(readFileSync(file, 'utf8'))).toHaveLength(plan.entries.length + 1);
  });

  it('a folder that is not there: exit code 1, every file named, the others written', async () => {
    const targets = targetsOf('--ics=nowhere/plan.ics', `--csv=${join(folder, 'plan.csv')}`, '--gpx=nowhere/plan.gpx');
    const { code, err } = await run(targets);
    expect(code).toBe(1);
    expect(
      err
        .trimEnd()
        .split('\n')
        .map((line) => line.split(':')[0]),
    ).toEqual(['nowhere/plan.ics', 'nowhere/plan.gpx']);
    expect(readdirSync(folder)).toEqual(['plan.csv']);
  });

  it('a folder in the place of the file: it stays, and no part is left', async () => {
    const { code, err } = await run(targetsOf(`--csv=${folder}`));
    expect(code).toBe(1);
    expect(err).toContain('The file cannot be written');
    expect(readdirSync(folder)).toEqual([]);
  });
});

describe('exportTargets', () => {
  it('none asked for: none', () => {
    expect(targetsOf().size).toBe(0);
    expect(isOnStandardOutput(targetsOf())).toBe(false);
  });

  it.each([
    ['two on standard output', ['--ics', '-', '--gpx', '-']],
    ['two into one file', ['--ics', 'a', '--gpx', './a']],
    ['standard output and --json', ['--ics', '-', '--json']],
    ['no file name', ['--ics=']],
  ])('%s: wrong use', (_, args) => {
    expect(() => targetsOf(...args)).toThrow(WrongUse);
  });

  it('the help names every option', () => {
    for (const option of EXPORT_OPTIONS) expect(exportHelp).toContain(`--${option} `);
  });
});
