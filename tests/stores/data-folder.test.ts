import { describe, expect, it } from 'vitest';
import { dataFolder } from '../../server/stores/index.ts';

const machine = { platform: 'linux', environment: {}, homeFolder: '/home/s' } as const;

describe('dataFolder', () => {
  // XDG Base Directory Specification: default ~/.local/share; relative paths are to be ignored.
  it.each([
    [{}, '/home/s/.local/share/slatch'],
    [{ XDG_DATA_HOME: '/data' }, '/data/slatch'],
    [{ XDG_DATA_HOME: 'data' }, '/home/s/.local/share/slatch'],
    [{ XDG_DATA_HOME: '' }, '/home/s/.local/share/slatch'],
  ])('Linux with %o: %s', (environment, folder) => {
    expect(dataFolder({ ...machine, environment })).toBe(folder);
  });

  it('macOS and Windows: the usual places', () => {
    expect(dataFolder({ ...machine, platform: 'darwin', homeFolder: '/Users/s' })).toBe(
      '/Users/s/Library/Application Support/Slatch',
    );
    const windows = { ...machine, platform: 'win32', homeFolder: 'C:\\Users\\s' } as const;
    expect(dataFolder(windows)).toBe('C:\\Users\\s\\AppData\\Local\\Slatch');
    expect(dataFolder({ ...windows, environment: { LOCALAPPDATA: 'D:\\L' } })).toBe('D:\\L\\Slatch');
  });
});
