import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { bootstrap, freshProject } from './fresh-project.ts';

const HELLO = bootstrap('run', 'scripts/hello.mjs', 'a', '--b');
const IN_TYPESCRIPT = bootstrap('run', 'scripts/hello.ts', 'a', '--b');

/** A process number that belongs to nobody any more. */
const deadPid = (): number => spawnSync(process.execPath, ['-e', '']).pid;

describe('set-up', () => {
  it('a fresh checkout: installs once, then runs; the second time only runs', async () => {
    const project = freshProject();
    const first = await project.run(IN_TYPESCRIPT, { REAL_TSX: '1' });
    expect(first).toMatchObject({ code: 0, out: 'hello a+--b\n' });
    expect(project.installCount()).toBe(1);
    expect(project.has('.boot-lock')).toBe(false);
    expect(await project.run(IN_TYPESCRIPT)).toEqual({ code: 0, out: 'hello a+--b\n', err: '' });
    expect(project.installCount()).toBe(1);
  });

  it('NODE_ENV=production: the tools for development are installed all the same', async () => {
    const project = freshProject();
    await project.run(HELLO, { NODE_ENV: 'production' });
    expect(project.read('npm-calls.txt')).toMatch(/^ci --include=dev .* NODE_ENV=\n$/);
  });

  it('a changed lock file: installs again', async () => {
    const project = freshProject();
    await project.run(HELLO);
    project.write('package-lock.json', project.read('package-lock.json').replace('2.0.0', '2.0.1'));
    await project.run(HELLO);
    expect(project.installCount()).toBe(2);
  });

  it('no stamp, but what npm installed equals the lock file: does not install again', async () => {
    const project = freshProject();
    project.install();
    expect(await project.run(HELLO)).toMatchObject({ code: 0 });
    expect(project.installCount()).toBe(0);
    expect(project.has('node_modules/.boot-stamp')).toBe(true);
  });

  it('a package that is missing, extra or other than locked: installs again; an optional one may be missing', async () => {
    const project = freshProject();
    project.install();
    const lock = project.read('package-lock.json');
    const installed = JSON.parse(lock) as { packages: Record<string, object> };
    const { 'node_modules/b': b, ...withoutB } = installed.packages;
    const cases = [
      { packages: withoutB },
      { packages: { ...installed.packages, 'node_modules/c': b } },
      { packages: { ...withoutB, 'node_modules/b': { ...b, integrity: 'sha512-other' } } },
    ];
    for (const [index, hidden] of cases.entries()) {
      rmSync(join(project.folder, 'node_modules', '.boot-stamp'), { force: true });
      project.write('node_modules/.package-lock.json', JSON.stringify(hidden));
      await project.run(HELLO);
      expect(project.installCount()).toBe(index + 1);
    }
    rmSync(join(project.folder, 'node_modules', '.boot-stamp'));
    project.write(
      'package-lock.json',
      JSON.stringify({ packages: { ...withoutB, 'node_modules/b': { ...b, optional: true } } }),
    );
    project.write('node_modules/.package-lock.json', JSON.stringify({ packages: withoutB }));
    await project.run(HELLO);
    expect(project.installCount()).toBe(3);
  });

  it('no registry: one plain sentence, code 1, nothing left behind; and works once there is one', async () => {
    const project = freshProject();
    const failed = await project.run(HELLO, { FAKE_NPM: 'fail' });
    expect(failed).toMatchObject({ code: 1, out: '' });
    expect(failed.err).toContain('after that Slatch works offline');
    expect(failed.err).not.toMatch(/^\s+at /m);
    expect([project.has('.boot-lock'), project.has('node_modules/.boot-stamp')]).toEqual([false, false]);
    expect(await project.run(HELLO)).toMatchObject({ code: 0 });
  });

  it('npm killed half-way: the next run installs', async () => {
    const project = freshProject();
    expect(await project.run(HELLO, { FAKE_NPM: 'die' })).toMatchObject({ code: 1 });
    expect(await project.run(HELLO)).toMatchObject({ code: 0 });
    expect(project.installCount()).toBe(2);
  });

  it('two at once on a fresh checkout: one installs, the other waits, both run', async () => {
    const project = freshProject();
    const slow = { FAKE_NPM_MS: '700' };
    const both = await Promise.all([project.run(HELLO, slow), project.run(HELLO, slow)]);
    expect(both.map(({ code, out }) => [code, out])).toEqual([
      [0, 'hello a+--b\n'],
      [0, 'hello a+--b\n'],
    ]);
    expect(project.installCount()).toBe(1);
    expect(project.has('.boot-lock')).toBe(false);
  });

  it('the lock of a process that died: is taken over', async () => {
    const project = freshProject();
    project.write('.boot-lock', String(deadPid()));
    expect(await project.run(HELLO)).toMatchObject({ code: 0 });
    expect(project.has('.boot-lock')).toBe(false);
  });
});

describe('bootstrap', () => {
  it.each([[[]], [['sail']], [['run']]])('called with %o: says how to call it, code 2', async (args) => {
    const project = freshProject();
    project.install();
    const ended = await project.run(bootstrap(...args));
    expect(ended.code).toBe(2);
    expect(ended.err).toContain('start | test | check | run FILE');
  });

  it('a program that ends with a code: hands it on', async () => {
    const project = freshProject();
    project.write('scripts/fails.ts', 'const code: number = 7;\nprocess.exitCode = code;\n');
    expect(await project.run(bootstrap('run', 'scripts/fails.ts'), { REAL_TSX: '1' })).toMatchObject({ code: 7 });
  });
});

describe('start', () => {
  it('ended from outside: the server is this very process, so nothing is left running', async () => {
    const project = freshProject();
    await project.run(HELLO, { REAL_TSX: '1' });
    mkdirSync(join(project.folder, 'server'));
    project.write(
      'server/main.ts',
      'const pid: number = process.pid;\nconsole.log(pid);\nsetInterval(() => pid, 1_000);\n',
    );
    const child = spawn(process.execPath, bootstrap('start'), {
      cwd: project.folder,
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    const [chunk] = (await once(child.stdout, 'data')) as [Buffer];
    expect(Number(chunk.toString())).toBe(child.pid);
    child.kill('SIGTERM');
    expect(await once(child, 'close')).toEqual([null, 'SIGTERM']);
  });
});

describe('slatch', () => {
  it('not set up: says what to do, code 1', async () => {
    const ended = await freshProject().run(['scripts/slatch.mjs', 'plan']);
    expect(ended).toMatchObject({ code: 1, out: '' });
    expect(ended.err).toMatch(/^Slatch is not set up yet: run "npm start"/);
  });

  it('set up: hands its arguments to slatch.ts, from any folder and through the link of npx', async () => {
    const project = freshProject();
    await project.run(HELLO, { REAL_TSX: '1' });
    const link = join(project.folder, 'node_modules', '.bin', 'slatch');
    const ended = spawnSync(link, ['plan', '--json'], { cwd: '/', encoding: 'utf8' });
    expect(ended.stdout, ended.stderr).toBe('slatch plan+--json\n');
  });
});
