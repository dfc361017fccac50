import fc from 'fast-check';
import { assessDamage, type DamageReport, readDamageFile } from '../../lib/sail/index.ts';

/** A mainsail of 12 panels, 15 m by 5 m, with measured reefs and no roach: heights can be reckoned by hand. */
export const MAIN = {
  kind: 'mainsail',
  cut: 'cross-cut',
  luffM: 15,
  footM: 5,
  panelCount: 12,
  roachRatio: 0,
  battens: { count: 5 },
  reefs: { count: 3, luffHeightsM: [2, 4.5, 7] },
} as const;

/** The report of a case that must be in order. */
export function reportOf(sail: object, damage: readonly object[] = []): DamageReport {
  const file = readDamageFile({ sail, damage }, 'case.json');
  if (!file.ok) throw new Error(JSON.stringify(file.problems));
  const report = assessDamage(file.value, 'case.json');
  if (!report.ok) throw new Error(JSON.stringify(report.problems));
  return report.value;
}

/** The report of any case, or null where a tear is too long for the place drawn; nothing else may be wrong with it. */
function reportIfItFits(one: object): DamageReport | null {
  const file = readDamageFile(one, 'case.json');
  const report = file.ok ? assessDamage(file.value, 'case.json') : file;
  if (report.ok) return report.value;
  const others = report.problems.filter(({ code }) => code !== 'damage.longer-than-sail');
  if (others.length > 0) throw new Error(JSON.stringify(others));
  return null;
}

/** Checks `judge` on any report; fails where fewer than 70 of 100 cases had one. */
export function assertForAnyReport(seed: number, judge: (report: DamageReport) => void): void {
  let judgedCount = 0;
  fc.assert(
    fc.property(anyCase, (one) => {
      const report = reportIfItFits(one);
      if (report === null) return;
      judgedCount++;
      judge(report);
    }),
    { seed },
  );
  if (judgedCount < 70) throw new Error(`only ${judgedCount} of 100 cases were judged`);
}

/** Problems of a case; none where it is in order. */
export function problemsOf(
  sail: object,
  damage: readonly object[] = [],
): readonly { code: string; where: string; what: string; expected: string; remedy: string }[] {
  const file = readDamageFile({ sail, damage }, 'case.json');
  const report = file.ok ? assessDamage(file.value, 'case.json') : file;
  return report.ok ? [] : report.problems;
}

const kind = fc.constantFrom('mainsail', 'headsail', 'staysail', 'trysail');
const share = fc.double({ min: 0.02, max: 0.98, noNaN: true });
const direction = fc.constantFrom(
  undefined,
  'across-the-load',
  'along-the-load',
  'along-the-seam',
  'across-the-seam',
  'fore-and-aft',
  'up-and-down',
);

const drop = (record: object): object =>
  Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined));

/** Any sail, measured or not, and up to some tears on it, all in order; tears as a share of the room there is are short. */
const anyCase = fc
  .record({
    kind,
    cut: fc.constantFrom('cross-cut', 'radial'),
    size: fc.option(
      fc.record({
        luffM: fc.double({ min: 5, max: 30, noNaN: true }),
        share: fc.double({ min: 0.3, max: 0.6, noNaN: true }),
      }),
    ),
    panelCount: fc.integer({ min: 3, max: 40 }),
    roachRatio: fc.option(fc.double({ min: 0, max: 0.15, noNaN: true }), { nil: undefined }),
    battens: fc.record({
      count: fc.integer({ min: 0, max: 12 }),
      kind: fc.constantFrom('full', 'short'),
      broken: fc.boolean(),
    }),
    reefs: fc.integer({ min: 0, max: 6 }),
    tears: fc.array(
      fc.record({
        panel: fc.nat(),
        from: fc.constantFrom('clew', 'head', undefined),
        chordShare: fc.option(share, { nil: undefined }),
        lengthM: fc.double({ min: 0.02, max: 0.3, noNaN: true }),
        direction,
      }),
      { maxLength: 6 },
    ),
  })
  .map(({ size, battens, reefs, tears, panelCount, ...rest }) => ({
    sail: drop({
      ...rest,
      panelCount,
      ...(size === null ? {} : { luffM: size.luffM, footM: size.luffM * size.share }),
      battens: {
        count: battens.count,
        kind: battens.kind,
        states: battens.broken && battens.count > 0 ? [{ batten: 1, state: 'missing' }] : [],
      },
      reefs: { count: reefs, set: Math.min(reefs, 1) },
    }),
    damage: tears.map(({ panel, from, ...tear }) =>
      drop({ ...tear, counted: drop({ from, panel: (panel % panelCount) + 1 }) }),
    ),
  }));
