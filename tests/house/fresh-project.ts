import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { projectFolder } from '../architecture/source-file.ts';

const { beginInstall, endInstall } = createRequire(import.meta.url)('./fake-install.cjs') as Record<
  'beginInstall' | 'endInstall',
  (project: string) => void
>;

const LOCK = {
  packages: {
    '': { name: 'fresh' },
    'node_modules/a': { version: '1.0.0', integrity: 'sha512-a' },
    'node_modules/b': { version: '2.0.0', integrity: 'sha512-b' },
  },
};

export interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

export interface FreshProject {
  readonly folder: string;
  /** Runs a script of the project with the stand-in for npm. */
  run(args: readonly string[], environment?: Readonly<Record<string, string>>): Promise<Ended>;
  write(name: string, text: string): void;
  read(name: string): string;
  has(name: string): boolean;
  /** Installs as the stand-in for npm does, without being asked by the set-up. */
  install(): void;
  /** How often npm was asked to install. */
  installCount(): number;
}

/** A checkout with nothing installed: our set-up scripts, a lock file, and programs that say that they ran. */
export function freshProject(): FreshProject {
  const folder = mkdtempSync(join(tmpdir(), 'slatch-project-'));
  onTestFinished(() => {
    rmSync(folder, { recursive: true, force: true });
  });
  const path = (name: string): string => join(folder, name);
  cpSync(join(projectFolder, 'scripts', 'set-up'), path('scripts/set-up'), { recursive: true });
  for (const name of ['scripts/bootstrap.mjs', 'scripts/slatch.mjs', 'tsconfig.json', '.npmrc'])
    cpSync(join(projectFolder, name), path(name));
  const project: FreshProject = {
    folder,
    run: async (args, environment = {}) => {
      const child = spawn(process.execPath, args, {
        cwd: folder,
        env: { ...process.env, npm_execpath: join(import.meta.dirname, 'fake-npm.cjs'), ...environment },
        stdio: ['ignore', 'pipe', 'pipe'],
      });
      let [out, err] = ['', ''];
      child.stdout.on('data', (chunk: Buffer) => (out += chunk.toString()));
      child.stderr.on('data', (chunk: Buffer) => (err += chunk.toString()));
      const [code] = (await once(child, 'close')) as [number | null];
      return { code, out, err };
    },
    write: (name, text) => {
      writeFileSync(path(name), text);
    },
    read: (name) => readFileSync(path(name), 'utf8'),
    has: (name) => existsSync(path(name)),
    install: () => {
      beginInstall(folder);
      endInstall(folder);
    },
    installCount: () =>
      (existsSync(path('npm-calls.txt')) ? project.read('npm-calls.txt').match(/^ci /gm) : null)?.length ?? 0,
  };
  project.write('package.json', '{"name":"fresh","type":"module","bin":{"slatch":"scripts/slatch.mjs"}}');
  project.write('package-lock.json', JSON.stringify(LOCK));
  // TypeScript that Node alone could not run.
  project.write(
    'scripts/slatch.ts',
    'const args: string[] = process.argv.slice(2);\nconsole.log("slatch", args.join("+"));\n',
  );
  // Plain JavaScript, that tsx need not be loaded for.
  project.write('scripts/hello.mjs', 'console.log("hello", process.argv.slice(2).join("+"));\n');
  project.write(
    'scripts/hello.ts',
    'const args: string[] = process.argv.slice(2);\nconsole.log("hello", args.join("+"));\n',
  );
  return project;
}

export const bootstrap = (...args: readonly string[]): readonly string[] => ['scripts/bootstrap.mjs', ...args];
