/** Every command that README.md and DEVELOPERS.md tell is run: here small, in the long run to the letter where it is slow. */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { openStore } from '../../server/stores/index.ts';
import { readManifest } from '../architecture/manifest.ts';
import { runProgram, slatch } from '../end-to-end/run-slatch.ts';
import { removeFolders, utcAtH, writePassage } from '../end-to-end/small-passage.ts';
import { IS_LONG_RUN, longOrShort } from '../long-run.ts';
import { SCRIPTS } from './commands.table.ts';
import { PREFIX, readDocument, root, shellLines } from './document.ts';

afterAll(removeFolders);

const documents = `${readDocument('README.md')}\n${readDocument('DEVELOPERS.md')}`;
/** Run by `npm run check`, or by the tests of the set-up. */
const OF_THE_CHECK = ['start', 'test', 'check', 'typecheck', 'lint', 'format', 'format:check', 'knip', 'vitest'];

describe('scripts of package.json', () => {
  const names = Object.keys(readManifest().scripts).filter((name) => !OF_THE_CHECK.includes(name));

  it('each: is told in a document and tried here', () => {
    const told = names.filter((name) => new RegExp(`npm run (--silent )?${name}(?![\\w:-])`).test(documents));
    expect(names.filter((name) => !told.includes(name))).toEqual([]);
    const tried = SCRIPTS.flatMap(({ script }) => (script.startsWith('scripts/') ? [] : [script]));
    expect(names.filter((name) => !tried.includes(name))).toEqual([]);
  });

  it('each that a document tells: is there', () => {
    const told = [...documents.matchAll(/npm run (?:--silent )?([a-z][\w:-]*)/g)].map(([, name = '']) => name);
    expect(told.length).toBeGreaterThan(10);
    expect([...new Set(told)].filter((name) => !(name in readManifest().scripts))).toEqual([]);
  });
});

describe('files that a document tells to run with node', () => {
  it('each: is tried here', () => {
    const told = [...documents.matchAll(/node --import tsx (scripts\/[\w/-]+\.ts)/g)].map(([, file = '']) => file);
    expect(told.length).toBeGreaterThan(2);
    expect([...new Set(told)].filter((file) => SCRIPTS.every(({ script }) => script !== file))).toEqual([]);
  });
});

/** One after another they would take half an hour; beside one another each takes its share of the machine. */
const SLOW_SCRIPTS_MS = longOrShort(1_200_000, 120_000);

describe.concurrent('a script, asked for little', { timeout: SLOW_SCRIPTS_MS }, () => {
  const there = SCRIPTS.filter(({ isSlow }) => IS_LONG_RUN || isSlow !== true);

  it.each(there)('$script $args: ends with code 0 and prints something', async ({ script, args, codes = [0] }) => {
    const folder = mkdtempSync(join(tmpdir(), 'slatch-command-'));
    const words = args.map((word) => word.replace('OUT', folder));
    const { code, out, err } = script.startsWith('scripts/')
      ? await runProgram(process.execPath, ['--import', 'tsx', script, ...words])
      : await runProgram('npm', ['run', '--silent', script, '--', ...words]);
    rmSync(folder, { recursive: true });
    expect(codes, `${out}\n${err}`).toContain(code);
    expect(out.trim()).not.toBe('');
  });
});

const lines = shellLines(readDocument('README.md')).filter((line) => line.startsWith(PREFIX));

/** The folder of a store with nothing in it. */
function storeIn(folder: string): string {
  const opened = openStore(join(folder, 'store'));
  if (!opened.ok) throw new Error('no store can be made');
  opened.value.close();
  return join(folder, 'store');
}

describe('README.md, commands that plan or leave a file', () => {
  const asked = lines
    .map((line) => line.slice(PREFIX.length))
    .filter(
      (line) =>
        /^(plan|plan-many|check|compare|sheet|forecast cut|store|passage|access-key) /.test(line) &&
        !line.includes('--log '),
    );

  it('in the order of the page, on a passage of a day: each ends with 0', async () => {
    const passage = writePassage();
    const folder = resolve(passage, '..');
    const here = (word: string): string =>
      /^[\w-]+\.(json|ics|gpx|csv|txt|grib2|tar)$/.test(word) ? join(folder, word) : word;
    const small: Readonly<Record<string, string>> = {
      'sample-forecasts/demo-passage.json': passage,
      'sample-forecasts/demo-control.grib2': join(folder, 'forecast.grib2'),
      drop: 'first',
      'another-store': join(folder, 'another-store'),
      demo: join(folder, 'demo'),
      plans: join(folder, 'plans'),
    };
    cpSync(passage, join(folder, 'my-passage.json'));
    const store = storeIn(folder);
    for (const line of asked) {
      const [command = '', file] = line.split(' > ');
      const words = command.split(' ').map((word) => {
        if (/^\d{4}-\d\d-\d\dT/.test(word)) return command.includes('--now') ? utcAtH(4) : utcAtH(24);
        return small[word] ?? (word === 'sample-forecasts/my-passage.json' ? passage : here(word));
      });
      const inStore = command.startsWith('store ') && !words.includes('--store') ? ['--store', store] : [];
      // One after the other: each may read what one before it has written.
      // oxlint-disable-next-line no-await-in-loop
      const { code, out, err } = await slatch(...words, ...inStore);
      expect(code, `${line}\n${err}`).toBe(0);
      if (file !== undefined) writeFileSync(here(file), out);
      if (line.endsWith('--seed 2 --json')) writeFileSync(here('my-plan.json'), out);
    }
    expect(asked.length).toBeGreaterThan(7);
  });

  it.runIf(IS_LONG_RUN)(
    'to the letter, by a shell, in a folder of the project: every line ends with 0',
    () => {
      const folder = mkdtempSync(join(tmpdir(), 'slatch-readme-'));
      cpSync(join(root, 'sample-forecasts'), join(folder, 'sample-forecasts'), { recursive: true });
      for (const name of ['package.json', 'node_modules', 'lib', 'server', 'scripts', 'views', 'tsconfig.json'])
        symlinkSync(join(root, name), join(folder, name));
      const env = { ...process.env, SLATCH_STORE: storeIn(folder) };
      const [, block = ''] = /^```json\n([\s\S]*?)^```$/m.exec(readDocument('README.md')) ?? [];
      writeFileSync(join(folder, 'sample-forecasts/my-passage.json'), block);
      for (const line of lines) {
        const command = line.replace(PREFIX, `node ${join(root, 'scripts/slatch.mjs')} `);
        const { status, stderr } = spawnSync('sh', ['-c', command], { cwd: folder, env, encoding: 'utf8' });
        expect(status, `${line}\n${stderr}`).toBe(0);
        if (line.endsWith('--json > plan.json')) cpSync(join(folder, 'plan.json'), join(folder, 'my-plan.json'));
      }
      rmSync(folder, { recursive: true });
    },
    1_200_000,
  );
});
