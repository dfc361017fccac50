import { describe, expect, it } from 'vitest';
import type { TearFinding, TearReport } from '../../lib/sail/index.ts';
import { findingTexts } from '../../lib/sail/index.ts';
import { outsideM } from '../../lib/sail/polygon.ts';
import { assertForAnyReport, MAIN, reportOf } from './sail-cases.ts';

const SEED = 63;

function tearOn(damage: object, sail: object = MAIN): TearReport {
  const [tear] = reportOf(sail, [damage]).tears;
  if (tear === undefined) throw new Error('no tear');
  return tear;
}

function finding<C extends TearFinding['code']>(report: TearReport, code: C): Extract<TearFinding, { code: C }> {
  const isWanted = (one: TearFinding): one is Extract<TearFinding, { code: C }> => one.code === code;
  const found = report.findings.find(isWanted);
  if (found === undefined) throw new Error(`no ${code}`);
  return found;
}

const verdicts = (report: TearReport): readonly string[] =>
  report.findings.flatMap((one) => (one.code === 'tear.reef' ? [one.verdict] : []));

const SIXTH = {
  counted: { from: 'clew', panel: 6 },
  distanceFromLeechM: 0.9,
  lengthM: 0.9,
  direction: 'across-the-load',
};

describe('a tear placed by counting', () => {
  it('6th panel up from the clew, 0.9 m from the leech, across the load: at its place by hand', () => {
    const { tear } = tearOn(SIXTH);
    // 5.5 panels of 15.811/12 m up the leech, 0.9 m square to it.
    const leechM = Math.hypot(15, 5);
    const [alongM, inM] = [(5.5 * leechM) / 12, 0.9];
    expect(tear.middle.xM).toBeCloseTo(5 - (alongM * 5) / leechM - (inM * 15) / leechM, 6);
    expect(tear.middle.yM).toBeCloseTo((alongM * 15) / leechM - (inM * 5) / leechM, 6);
    expect(tear.loadAngleDeg).toBeCloseTo(90, 6);
  });

  it.each([
    ['distanceFromLuffM', 1.2],
    ['distanceFromFootM', 6.2],
  ])('%s %d: as far from that edge as said', (key, wantedM) => {
    const { tear } = tearOn({ counted: { panel: 6 }, [key]: wantedM, lengthM: 0.4 });
    expect(key === 'distanceFromLuffM' ? tear.middle.xM : tear.middle.yM).toBeCloseTo(wantedM, 6);
  });

  it('along a gore from its corner: that far from it', () => {
    const sail = { kind: 'headsail', cut: 'radial', luffM: 14, footM: 6, panelCount: 12 };
    const { tear } = tearOn({ counted: { from: 'clew', panel: 2 }, distanceFromCornerM: 1.5, lengthM: 0.3 }, sail);
    const { clew } = reportOf(sail).shape.outline;
    expect(Math.hypot(tear.middle.xM - clew.xM, tear.middle.yM - clew.yM)).toBeCloseTo(1.5, 6);
  });

  it('any tear: its length to scale, every point on the sail, where it may lie on the sail too', () => {
    assertForAnyReport(SEED, (report) => {
      const { shape, tears } = report;
      for (const { tear } of tears) {
        const { from, to } = tear.line;
        const drawnM = Math.hypot(to.xM - from.xM, to.yM - from.yM);
        // Only a sail of unknown size is drawn too small for a tear.
        expect(drawnM).toBeLessThanOrEqual(tear.lengthM + 1e-9);
        expect(shape.outline.scale === 'typical' || Math.abs(drawnM - tear.lengthM) < 1e-9).toBe(true);
        for (const point of [from, to, tear.middle, ...tear.mayLie])
          expect(outsideM(shape.outline.edge, point)).toBeLessThan(1e-6);
      }
    });
  });

  it('direction not said: across the load is taken, and said', () => {
    const report = tearOn({ counted: { panel: 6 }, lengthM: 0.3, chordShare: 0.5 });
    expect(finding(report, 'tear.load')).toMatchObject({ runs: 'across', urgency: 'urgent', isDirectionSaid: false });
    expect(findingTexts(report.findings).join(' ')).toContain('not said: the worse that fits is taken');
  });

  it('no length of the sail known: placed all the same, and said to be of no scale', () => {
    const report = tearOn({ ...SIXTH, lengthM: 30 }, { kind: 'mainsail', cut: 'cross-cut', panelCount: 12 });
    expect(finding(report, 'tear.place').scale).toBe('typical');
    expect(finding(report, 'tear.length').drawnM).toBeLessThan(30);
    expect(findingTexts(report.findings).join(' ')).toContain('not to scale');
  });

  it('at the edge: moved along itself until it lies on the sail, and said', () => {
    const report = tearOn({ ...SIXTH, distanceFromLeechM: 0 });
    expect(finding(report, 'tear.moved').movedM).toBeCloseTo(0.45, 2);
  });
});

describe('zones and crossings', () => {
  it('last 15 % of the chord: leech; a metre of the clew: corner; neither: none (common practice, no source)', () => {
    // At 7.5 m the chord is 2.5 m: 0.375 m along it count as leech.
    const zonesAt = (chordShare: number): readonly string[] =>
      finding(tearOn({ betweenBattens: [2, 3], chordShare, lengthM: 0.02, direction: 'up-and-down' }), 'tear.zones')
        .zones;
    expect(zonesAt(0.87)).toEqual(['leech']);
    expect(zonesAt(0.83)).toEqual([]);
    expect(zonesAt(0.13)).toEqual(['luff']);
    const corner = tearOn({ counted: { panel: 1 }, distanceFromLeechM: 0.2, lengthM: 0.1 });
    expect(finding(corner, 'tear.zones').zones[0]).toBe('corner');
  });

  it('up and down across batten 3 and reef line 3, seams with both counts', () => {
    const report = tearOn({ betweenBattens: [3, 4], chordShare: 0.5, lengthM: 3, direction: 'up-and-down' });
    const codes = report.findings.flatMap((one) =>
      'count' in one && one.code !== 'tear.reef' ? [`${one.code} ${one.count.itsNumber}`] : [],
    );
    // From 4.75 m to 7.75 m: battens 3 and 4 stand at 7.5 and 5 m, reef 3 at 7 m.
    expect(codes).toEqual(['tear.batten 3', 'tear.batten 4', 'tear.reef-line 3']);
    expect(findingTexts(report.findings)).toContain(
      'It crosses batten 3 of 5 from the head = 3rd from the foot, and its pocket.',
    );
    expect(findingTexts(report.findings).some((text) => text.includes('crosses the seam between panels'))).toBe(true);
  });

  it('along a seam: it runs along that one and lies in both panels', () => {
    const report = tearOn({
      counted: { panel: 4, seam: 'next' },
      chordShare: 0.5,
      lengthM: 0.6,
      direction: 'along-the-seam',
    });
    expect(finding(report, 'tear.seam')).toMatchObject({ panelNumbers: [4, 5], isAlong: true });
    expect(finding(report, 'tear.place').panels.map(({ count }) => count.itsNumber)).toEqual([4, 5]);
  });
});

describe('reefs', () => {
  it('wholly below: that reef is the first answer; what is only likely is not called below', () => {
    // Panel 2, its middle 1.5 * 1.318 m up the leech: 1.88 m high at the leech, 1.56 m a metre in; ± 0.63 m.
    const report = tearOn({ counted: { panel: 2 }, distanceFromLeechM: 1, lengthM: 0.3, direction: 'fore-and-aft' });
    expect(verdicts(report)).toEqual(['likely-below', 'below', 'below']);
    expect(finding(report, 'tear.first-answer')).toMatchObject({ reef: { itsNumber: 2 }, isSure: true });
    expect(report.stitch.canWaitWithReefNumber).toBe(2);
    const seen = tearOn({ counted: { panel: 2 }, distanceFromLeechM: 1, lengthM: 0.3, belowReef: 1 });
    expect(finding(seen, 'tear.first-answer').reef?.itsNumber).toBe(1);
  });

  it('heights of reefs not given: less is sure', () => {
    const damage = { counted: { panel: 2 }, distanceFromLeechM: 1, lengthM: 0.3, direction: 'fore-and-aft' };
    const guessed = tearOn(damage, { ...MAIN, reefs: { count: 3 } });
    const measured = tearOn(damage, { ...MAIN, reefs: { count: 3, luffHeightsM: [1.95, 4.2, 6.6] } });
    const rank = ['above', 'partly', 'likely-below', 'below'];
    verdicts(guessed).forEach((verdict, index) =>
      expect(rank.indexOf(verdict)).toBeLessThanOrEqual(rank.indexOf(verdicts(measured)[index] ?? '')),
    );
  });

  it('any tear: out of use below one reef, out of use below every higher one', () => {
    const rank = ['above', 'partly', 'likely-below', 'below'];
    assertForAnyReport(SEED, (report) => {
      for (const tear of report.tears) {
        const ranks = verdicts(tear).map((verdict) => rank.indexOf(verdict));
        expect(ranks).toEqual(ranks.toSorted((a, b) => a - b));
      }
    });
  });

  it('no side known: a tear counts up to twice as large, so it is not sooner below a reef', () => {
    const damage = { counted: { panel: 2 }, chordShare: 0.5, lengthM: 3, direction: 'up-and-down' };
    const sail = { kind: 'mainsail', cut: 'cross-cut', panelCount: 12, reefs: { count: 3 } };
    const typical = finding(tearOn(damage, sail), 'tear.place').upM;
    const measured = finding(tearOn(damage, { ...sail, luffM: 14, footM: 14 / 2.9 }), 'tear.place').upM;
    expect(typical).toBeGreaterThan(measured + 1);
  });

  it('the reef that is in keeps it out of use: sail on', () => {
    const damage = { counted: { panel: 2 }, distanceFromLeechM: 1, lengthM: 0.3 };
    const report = tearOn(damage, { ...MAIN, reefs: { ...MAIN.reefs, set: 2 } });
    expect(findingTexts(report.findings).at(-1)).toContain('sail on');
  });
});

describe('sewing', () => {
  // Rows, overlap and layers: common practice, no source.
  it.each([
    [
      'low load',
      { betweenBattens: [3, 4], chordShare: 0.5, lengthM: 0.02, direction: 'fore-and-aft' },
      { rowCount: 1, overlapM: 0.05, layersPerSideCount: 1 },
    ],
    ['leech', { ...SIXTH, distanceFromLeechM: 0.3 }, { rowCount: 2, overlapM: 0.1, layersPerSideCount: 2 }],
    [
      'corner',
      { counted: { panel: 1 }, distanceFromLeechM: 0.2, lengthM: 0.2 },
      { rowCount: 3, overlapM: 0.1, layersPerSideCount: 2 },
    ],
    [
      'place along the panel not said',
      { counted: { panel: 6 }, lengthM: 0.2, direction: 'along-the-seam' },
      { rowCount: 2, overlapM: 0.1, layersPerSideCount: 2 },
    ],
  ])('%s', (_, damage, { rowCount, overlapM, layersPerSideCount }) => {
    const { stitch } = tearOn(damage);
    expect(stitch).toMatchObject({ rowCount, patch: { overlapM, layersPerSideCount, sideCount: 2 } });
    expect(stitch.rowsReason.provenance).toBe('common practice, no source');
  });

  it('a seam that came open, away from leech and corners: two rows through old holes, no patch', () => {
    const damage = { counted: { panel: 5, seam: 'next' }, chordShare: 0.5, lengthM: 0.5, direction: 'along-the-seam' };
    expect(tearOn(damage).stitch).toMatchObject({ rowCount: 2, cloth: 'old-holes', patch: null });
  });
});

describe('battens', () => {
  const limits = (states: readonly object[], sail: object = MAIN): readonly (readonly unknown[])[] =>
    reportOf({ ...sail, battens: { count: 5, states } }).battens.map(({ why, reef }) => [why, reef?.itsNumber ?? null]);

  // Common practice, no source: top one missing, no more than reef 2; a lower one, the reef above its pocket.
  it('top one missing: no more than reef 2', () => {
    expect(limits([{ batten: 1, state: 'missing' }])).toEqual([['top-batten', 2]]);
    expect(limits([{ batten: 5, from: 'foot', state: 'missing' }])).toEqual([['top-batten', 2]]);
    expect(limits([{ batten: 1, state: 'missing' }], { ...MAIN, reefs: { count: 1 } })).toEqual([
      ['deepest-for-top', 1],
    ]);
  });

  it('a lower one missing or cracked: the reef above it; above all reefs: not known; joined: none', () => {
    // Battens at 5 m and 2.5 m, reefs at 2, 4.5 and 7 m.
    expect(
      limits([
        { batten: 4, state: 'missing' },
        { batten: 5, state: 'cracked' },
      ]),
    ).toEqual([
      ['below-reef', 3],
      ['below-reef', 2],
    ]);
    expect(limits([{ batten: 3, state: 'missing' }])).toEqual([['no-reef-above', null]]);
    expect(limits([{ batten: 3, state: 'joined' }])).toEqual([['joined', null]]);
  });
});
