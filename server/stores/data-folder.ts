import { posix, win32 } from 'node:path';

export interface Machine {
  readonly platform: NodeJS.Platform;
  readonly environment: Readonly<Record<string, string | undefined>>;
  readonly homeFolder: string;
}

/**
 * Folder in which programs of this platform keep a user's data; the store's default.
 *
 * Linux: XDG Base Directory Specification 0.8 (2021), `$XDG_DATA_HOME` when it is an absolute path, else
 * `~/.local/share`. macOS and Windows: common practice, no source.
 */
export function dataFolder({ platform, environment, homeFolder }: Machine): string {
  if (platform === 'win32')
    return win32.join(environment['LOCALAPPDATA'] ?? win32.join(homeFolder, 'AppData', 'Local'), 'Slatch');
  if (platform === 'darwin') return posix.join(homeFolder, 'Library', 'Application Support', 'Slatch');
  const named = environment['XDG_DATA_HOME'] ?? '';
  return posix.join(posix.isAbsolute(named) ? named : posix.join(homeFolder, '.local', 'share'), 'slatch');
}
