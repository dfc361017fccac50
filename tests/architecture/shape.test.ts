import { describe, expect, it } from 'vitest';
import { doorFindings, nameFindings, roomFindings, sizeFindings } from './shape-rules.ts';
import { codeFolders } from './rooms.ts';
import { formatFindings, readCode, readFiles, type SourceFile } from './source-file.ts';

const file = (path: string, text = ''): SourceFile => ({ path, text });

describe('file size', () => {
  it('400 lines: allowed; 401: found', () => {
    expect(sizeFindings([file('lib/a/a.ts', 'x\n'.repeat(400))])).toEqual([]);
    expect(sizeFindings([file('lib/a/a.ts', 'x\n'.repeat(401))])).toHaveLength(1);
  });

  it('a data table: may be longer', () => {
    expect(sizeFindings([file('lib/a/a.table.ts', 'x\n'.repeat(999))])).toEqual([]);
  });

  it('the tree: no file is too long', () => {
    expect(formatFindings(sizeFindings(readCode(codeFolders)))).toBe('');
  });
});

describe('file names', () => {
  it.each(['lib/a/findWindows.ts', 'lib/a/Find.ts', 'lib/a/find_windows.ts', 'lib/a/utils.ts', 'lib/a/types.ts'])(
    '%s: found',
    (path) => {
      expect(nameFindings([file(path)])).toHaveLength(1);
    },
  );

  it.each(['lib/a/find-windows.ts', 'lib/a/grid-0.table.ts', 'tests/a/b.test.tsx'])('%s: allowed', (path) => {
    expect(nameFindings([file(path)])).toEqual([]);
  });

  it('the tree: all in kebab-case', () => {
    expect(formatFindings(nameFindings(readCode(codeFolders)))).toBe('');
  });
});

describe('rooms', () => {
  it('without door, README or place in the table: three findings', () => {
    expect(roomFindings(['lib/attic/a.ts']).map((finding) => finding.say)).toEqual([
      'write index.ts.',
      'write README.md.',
      'add the room to tests/architecture/rooms.ts.',
    ]);
  });

  it('the tree: every room has its door and its README', () => {
    expect(formatFindings(roomFindings(readFiles(['lib'], ['.ts', '.md']).map(({ path }) => path)))).toBe('');
  });
});

describe('doors', () => {
  it('code in an index.ts beside other files: found', () => {
    expect(doorFindings([file('lib/a/index.ts', 'export const a = 1;'), file('lib/a/b.ts')])).toHaveLength(1);
  });

  it('re-exports, or a room of one file: allowed', () => {
    const door =
      "/** Room. */\nexport { a,\n b } from './b.ts'; // b\nexport type { C } from './c.ts';\nexport * from './d.ts';\n";
    expect(doorFindings([file('lib/a/index.ts', door), file('lib/a/b.ts')])).toEqual([]);
    expect(doorFindings([file('lib/a/index.ts', 'export const a = 1;')])).toEqual([]);
  });

  it('the tree: doors hold no code', () => {
    expect(formatFindings(doorFindings(readCode(['lib'])))).toBe('');
  });
});
