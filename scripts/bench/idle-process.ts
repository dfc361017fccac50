/** The server that does nothing, running. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';

export interface IdleServer {
  readonly url: string;
  readonly pid: number;
  readonly stop: () => Promise<void>;
}

const PROGRAM = fileURLToPath(new URL('idle-server.mjs', import.meta.url));

export async function startIdleServer(): Promise<IdleServer> {
  const child = spawn(process.execPath, [PROGRAM], { stdio: ['ignore', 'pipe', 'inherit'] });
  const { pid, stdout } = child;
  for await (const url of createInterface({ input: stdout }))
    if (pid !== undefined)
      return {
        url,
        pid,
        stop: async () => {
          child.kill('SIGTERM');
          await once(child, 'exit');
        },
      };
  throw new Error('the server that does nothing did not start');
}
