/** The program as it is started by hand, in a process and a store of its own. */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { projectFolder } from '../../architecture/source-file.ts';

export interface Program {
  /** Ends without a slash. */
  readonly url: string;
  /** All it has printed. */
  readonly said: () => string;
  readonly child: ChildProcess;
  /** Its home, with what it was given and its store in `store`. */
  readonly folder: string;
  /** Also removes the folder. */
  readonly stop: () => Promise<void>;
}

interface Started {
  /** Path of the passage file; absent: the demo. */
  readonly passageFile?: string;
  /** Key shared with the other side; absent: there is none. */
  readonly key?: string;
  /** Address to listen on, and the key it then asks for; absent: the loopback, without a key. */
  readonly door?: { readonly host: string; readonly accessKey: string };
}

/** Starts the program on a free port and waits for its address; its plan is then in the making. */
export async function startProgram({ passageFile, key, door }: Started = {}): Promise<Program> {
  const folder = mkdtempSync(join(tmpdir(), 'slatch-story-'));
  const keyFile = join(folder, 'key.txt');
  if (key !== undefined) writeFileSync(keyFile, key, { mode: 0o600 });
  const accessKeyFile = join(folder, 'access-key.txt');
  if (door !== undefined) writeFileSync(accessKeyFile, door.accessKey, { mode: 0o600 });
  const given = [
    '--port',
    '0',
    '--store',
    join(folder, 'store'),
    ...(passageFile === undefined ? [] : ['--passage', passageFile]),
    ...(key === undefined ? [] : ['--message-key', keyFile]),
    ...(door === undefined ? [] : ['--host', door.host, '--access-key', accessKeyFile]),
  ];
  const child = spawn(process.execPath, ['--import', 'tsx', 'server/main.ts', ...given], {
    cwd: projectFolder,
    env: { ...process.env, HOME: folder, XDG_DATA_HOME: folder },
  });
  let said = '';
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (chunk: Buffer) => (said += chunk.toString()));
  const stop = async (): Promise<void> => {
    if (child.exitCode === null && child.signalCode === null) {
      const ended = once(child, 'close');
      child.kill('SIGTERM');
      await ended;
    }
    rmSync(folder, { recursive: true, force: true });
  };
  const url = await addressOf(child, () => said);
  return { url, said: () => said, child, folder, stop };
}

/** The address it prints; throws with what it said where it ends before. */
function addressOf(child: ChildProcess, said: () => string): Promise<string> {
  return new Promise((settle, fail) => {
    const look = (): void => {
      const [, url] = /Slatch: (http:\/\/\S+?)\/?\s/.exec(said()) ?? [];
      if (url !== undefined) settle(url);
    };
    child.stdout?.on('data', look);
    child.once('close', () => fail(new Error(`the program ended: ${said()}`)));
  });
}
