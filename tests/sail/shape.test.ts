import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { loadDirectionAt } from '../../lib/sail/load-line.ts';
import { areaOf, outsideM } from '../../lib/sail/polygon.ts';
import { assertForAnyReport, MAIN, reportOf } from './sail-cases.ts';

const SEED = 61;

const areaOfSail = (sail: object): number => areaOf(reportOf(sail).shape.outline.edge);

describe('sailShape', () => {
  it('three sides: area by Heron, corners at their distances (Euclid, law of cosines)', () => {
    const [a, b, c] = [14, 6, 13.2];
    const { shape } = reportOf({ kind: 'headsail', cut: 'cross-cut', panelCount: 9, luffM: a, footM: b, leechM: c });
    const half = (a + b + c) / 2;
    // Heron of Alexandria, Metrica I 8.
    expect(areaOf(shape.outline.edge)).toBeCloseTo(Math.sqrt(half * (half - a) * (half - b) * (half - c)), 9);
    expect(Math.hypot(shape.outline.head.xM, shape.outline.head.yM)).toBeCloseTo(a, 9);
    expect(Math.hypot(shape.outline.clew.xM, shape.outline.clew.yM)).toBeCloseTo(b, 9);
    expect(shape.outline.leechM).toBeCloseTo(c, 9);
  });

  it('roach: two thirds of its height times the leech (Archimedes, Quadrature of the Parabola), less 24 straight parts', () => {
    const withRoach = areaOfSail({ ...MAIN, roachRatio: 0.1 });
    const leechM = Math.hypot(15, 5);
    const parabolaM2 = (2 / 3) * 0.1 * leechM * leechM;
    // Archimedes: n straight parts leave 1/n² of the segment.
    expect(withRoach - areaOfSail(MAIN)).toBeCloseTo(parabolaM2 * (1 - 1 / 24 ** 2), 9);
  });

  it('cross-cut: seams square to the leech and a panel apart', () => {
    const { seams, outline } = reportOf(MAIN).shape;
    const up = { xM: outline.head.xM - outline.clew.xM, yM: outline.head.yM - outline.clew.yM };
    seams.forEach(({ line }, index) => {
      const dot = up.xM * (line.to.xM - line.from.xM) + up.yM * (line.to.yM - line.from.yM);
      expect(Math.abs(dot)).toBeLessThan(1e-9);
      const alongM = Math.hypot(line.to.xM - outline.clew.xM, line.to.yM - outline.clew.yM);
      expect(alongM).toBeCloseTo(((index + 1) * outline.leechM) / 12, 9);
    });
  });

  it('any sail: panels cover it once (areas add up), nothing of it is NaN or outside', () => {
    assertForAnyReport(SEED, (report) => {
      const { outline, panels, seams, battens, reefs } = report.shape;
      const sum = panels.reduce((areaM2, { region }) => areaM2 + areaOf(region), 0);
      expect(sum).toBeCloseTo(areaOf(outline.edge), 6);
      const lines = [...seams, ...battens, ...reefs].flatMap(({ line }) => [line.from, line.to]);
      expect(Math.max(0, ...lines.map((point) => outsideM(outline.edge, point)))).toBeLessThan(1e-6);
      JSON.stringify(report, (key, value: unknown) => {
        if (typeof value === 'number' && !Number.isFinite(value)) throw new Error(`${key} is ${value}`);
        return value;
      });
    });
  });

  it('battens of equal spacing: those of five stand at sixths of the height, 1 the top one', () => {
    const heights = reportOf(MAIN).shape.battens.map(({ heightM }) => heightM);
    [12.5, 10, 7.5, 5, 2.5].forEach((heightM, index) => expect(heights[index]).toBeCloseTo(heightM, 9));
  });

  it('load: along the straight leech on it, along the luff by it near the head', () => {
    const { outline } = reportOf(MAIN).shape;
    const onLeech = loadDirectionAt(outline, { xM: 2.5, yM: 7.5 });
    expect(onLeech.xM * 15 + onLeech.yM * 5).toBeCloseTo(0, 9);
    const nearHead = loadDirectionAt(outline, { xM: 0.02, yM: 14 });
    expect(Math.abs(nearHead.xM)).toBeLessThan(0.12);
  });

  it('load: the tangent of a quadratic Bézier curve as de Casteljau constructs it', () => {
    const { outline } = reportOf(MAIN).shape;
    const { tack, clew, head } = outline;
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        fc.double({ min: 0.05, max: 1, noNaN: true }),
        (at, bow) => {
          const mix = (a: typeof head, b: typeof head, share: number): typeof head => ({
            xM: a.xM * (1 - share) + b.xM * share,
            yM: a.yM * (1 - share) + b.yM * share,
          });
          const bend = mix(mix(head, clew, 0.5), tack, bow);
          const [first, second] = [mix(head, bend, at), mix(bend, clew, at)];
          const got = loadDirectionAt(outline, mix(first, second, at));
          // The tangent runs from the first of de Casteljau's points to the second.
          const tangent = { xM: second.xM - first.xM, yM: second.yM - first.yM };
          const lengthM = Math.hypot(tangent.xM, tangent.yM);
          expect(got.xM).toBeCloseTo(tangent.xM / lengthM, 6);
          expect(got.yM).toBeCloseTo(tangent.yM / lengthM, 6);
        },
      ),
      { seed: SEED },
    );
  });
});
