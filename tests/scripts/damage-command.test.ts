import { describe, expect, it } from 'vitest';
import { damageCommand } from '../../scripts/commands/damage.ts';

async function run(file: unknown, ...args: readonly string[]): Promise<{ code: number; out: string; err: string }> {
  const said = { out: '', err: '' };
  const code = await damageCommand.run(args, {
    out: (text) => void (said.out += text),
    err: (text) => void (said.err += text),
    readFile: (path) =>
      path === 'sail.json'
        ? Promise.resolve(new TextEncoder().encode(typeof file === 'string' ? file : JSON.stringify(file)))
        : Promise.reject(Object.assign(new Error('none'), { code: 'ENOENT' })),
    nowEpochMs: () => 0,
  });
  return { code, ...said };
}

const FILE = {
  sail: {
    kind: 'mainsail',
    cut: 'cross-cut',
    luffM: 15,
    footM: 5,
    panelCount: 12,
    battens: { count: 5, states: [{ batten: 1, state: 'missing' }] },
    reefs: { count: 3 },
  },
  damage: [
    { counted: { from: 'clew', panel: 6 }, distanceFromLeechM: 0.6, lengthM: 0.9, direction: 'across-the-load' },
    {
      id: 'low',
      counted: { from: 'head', panel: 11 },
      distanceFromLeechM: 1.6,
      lengthM: 0.4,
      direction: 'fore-and-aft',
    },
  ],
};

describe('slatch damage', () => {
  it('in sentences: both counts, the reef that answers, the sewing, the batten', async () => {
    const { code, out } = await run(FILE, 'sail.json');
    expect(code).toBe(0);
    expect(out).toContain('panel 6 of 12 from the clew = 7th from the head');
    expect(out).toContain('First answer: sail with reef 2 in');
    expect(out).toContain('Sew 2 rows');
    expect(out).toContain('Batten 1 of 5 from the head = 5th from the foot is missing: no more sail than reef 2.');
    expect(out).toContain('our default');
  });

  it('--json: findings with amounts, the stitch proposal, places', async () => {
    const { code, out } = await run(FILE, 'sail.json', '--json');
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({
      sail: { scale: 'measured', panelCount: 12 },
      damage: [
        { id: 'tear-1', mark: 'A', lengthM: 0.9, stitch: { rowCount: 2, lengthM: 0.9, patch: { overlapM: 0.1 } } },
        { id: 'low', mark: 'B', stitch: { canWaitWithReefNumber: 2 } },
      ],
      battens: [{ why: 'top-batten', reef: { itsNumber: 2 } }],
    });
  });

  it.each(['day', 'night', 'print'])(
    '--svg --style %s: one document, no outside request, colours written out',
    async (style) => {
      const { code, out } = await run(FILE, 'sail.json', '--svg', '--style', style);
      expect(code).toBe(0);
      expect(out).toMatch(/^<svg [\s\S]*<\/svg>\n$/);
      expect(out).not.toMatch(/var\(|undefined|NaN/);
      expect(out.replace('http://www.w3.org/2000/svg', '')).not.toMatch(/https?:|@import|<script|<image/);
    },
  );

  it('everything wrong is told at once, on standard error: exit code 1', async () => {
    const damage = [
      { ...FILE.damage[0], counted: { panel: 13 } },
      { ...FILE.damage[1], distanceFromLeechM: 40 },
    ];
    const { code, out, err } = await run({ ...FILE, damage }, 'sail.json');
    expect([code, out]).toEqual([1, '']);
    expect(err).toContain('sail.json, damage[0].counted.panel: There is no panel 13 from the clew: there are 12.');
    expect(err).toContain('sail.json, damage[1].distanceFromLeechM');
    expect(err.trim().split('\n')).toHaveLength(2);
  });

  it('no JSON, no file: exit code 1 with the reason', async () => {
    const [notJson, noFile] = [await run('{', 'sail.json'), await run(FILE, 'other.json')];
    expect([notJson.code, noFile.code]).toEqual([1, 1]);
    expect(notJson.err).toContain('not JSON');
    expect(noFile.err).toContain('no such file');
  });

  it('wrong use: exit code 2 and the help', async () => {
    for (const args of [
      [],
      ['a', 'b'],
      ['sail.json', '--json', '--svg'],
      ['sail.json', '--style', 'day'],
      ['sail.json', '--svg', '--style', 'pink'],
    ])
      expect((await run(FILE, ...args)).code).toBe(2);
  });

  it('--help: its example is a file the command takes', async () => {
    const { code, out } = await run(FILE, '--help');
    expect(code).toBe(0);
    const example = out.slice(out.indexOf('{ "sail"'), out.indexOf('\n\n  kind'));
    expect((await run(JSON.parse(example), 'sail.json')).code).toBe(0);
  });
});
