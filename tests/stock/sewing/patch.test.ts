import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  clothAreaM2,
  edgeM,
  edgeSeam,
  glueKg,
  gPerM2FromSailmakersOunces,
  PATCH_OVERLAP_MM,
  PATCH_STEP_M,
  patchAreaM2,
  patchCloths,
  patchStuff,
  sailmakersOuncesFromGPerM2,
  usualEdgeRowCount,
  type Patch,
} from '../../../lib/stock/index.ts';

const slit = (tearLengthM: number, overlapM: number): Patch => ({
  tearLengthM,
  tearWidthM: 0.02,
  overlapM,
  sideCount: 2,
  layersPerSideCount: 1,
});
const leechTear: Patch = { ...slit(0.9, 0.1), layersPerSideCount: 2 };
const round = (value: number): number => Math.round(value * 1e6) / 1e6;

// Worked out before this library was written, independently of it, from (L + 2e)(w + 2e), and rounded to 0.01 m².
describe('patchAreaM2 (both sides of a 20 mm slit)', () => {
  it.each([
    [0.3, 0.05, 0.1],
    [0.3, 0.1, 0.22],
    [1, 0.05, 0.26],
    [1, 0.1, 0.53],
    [2, 0.05, 0.5],
    [2, 0.1, 0.97],
    [3, 0.05, 0.74],
    [3, 0.1, 1.41],
  ])('slit %d m, overlap %d m: %d m²', (tearLengthM, overlapM, areaM2) => {
    expect(Math.abs(patchAreaM2(slit(tearLengthM, overlapM)) - areaM2)).toBeLessThanOrEqual(0.005 + 1e-9);
  });

  it('0.9 m at the leech, 100 mm, two layers on both sides: 0.97 m²', () => {
    expect(Math.abs(patchAreaM2(leechTear) - 0.97)).toBeLessThanOrEqual(0.005);
  });

  it('a longer tear, more overlap, a second side: more cloth', () => {
    const figure = fc.double({ min: 0.01, max: 5, noNaN: true });
    fc.assert(
      fc.property(figure, figure, (tearLengthM, overlapM) => {
        const one = { ...slit(tearLengthM, overlapM), sideCount: 1 };
        expect(patchAreaM2({ ...one, tearLengthM: tearLengthM * 1.01 })).toBeGreaterThan(patchAreaM2(one));
        expect(patchAreaM2({ ...one, overlapM: overlapM * 1.01 })).toBeGreaterThan(patchAreaM2(one));
        expect(patchAreaM2({ ...one, sideCount: 2 })).toBeCloseTo(2 * patchAreaM2(one), 9);
      }),
      { seed: 63, numRuns: 100 },
    );
  });
});

// Web article on sail repair, 16 March 1999: two inches past the tear. 75 … 100 mm: common practice, no source.
describe('PATCH_OVERLAP_MM', () => {
  it('two inches at least; more where the sail is loaded', () => {
    expect(Math.abs(PATCH_OVERLAP_MM.light.leastMm - 2 * 25.4)).toBeLessThan(1);
    expect(PATCH_OVERLAP_MM.loaded).toEqual({ leastMm: 75, mostMm: 100 });
  });
});

describe('patchCloths', () => {
  it('the smallest keeps the overlap; each next is 20 mm larger all round', () => {
    const sizes = patchCloths(leechTear).map(({ lengthM, widthM }) => [round(lengthM), round(widthM)]);
    expect(sizes).toEqual([
      [1.1, 0.22],
      [1.14, 0.26],
      [1.18, 0.3],
      [1.22, 0.34],
    ]);
  });

  // A sailmaker in a sailing magazine, January 2018: near the leech two layers a side, the second larger.
  it('the second layer of a side is larger than its first', () => {
    const [first, , second] = patchCloths(leechTear);
    expect([first?.sideNumber, second?.sideNumber]).toEqual([1, 1]);
    expect([first?.layerNumber, second?.layerNumber]).toEqual([1, 2]);
    expect(second?.lengthM ?? 0).toBeGreaterThan(first?.lengthM ?? 0);
  });

  // The second side of another size: a yacht service's knowledge base; 15 … 25 mm: common practice, no source.
  it('the second side differs by 15 … 25 mm', () => {
    expect(PATCH_STEP_M).toBeGreaterThanOrEqual(0.015);
    expect(PATCH_STEP_M).toBeLessThanOrEqual(0.025);
  });

  it('without a step: the cloths add up to the area of the formula', () => {
    expect(clothAreaM2(patchCloths(leechTear, 0))).toBeCloseTo(patchAreaM2(leechTear), 12);
  });

  it('a patch smaller than its corners: they meet, and no more', () => {
    const [tiny] = patchCloths({ ...slit(0.01, 0.01), tearWidthM: 0, sideCount: 1 });
    expect(tiny?.cornerRadiusM).toBeCloseTo(0.01, 12);
  });
});

describe('edgeM and edgeSeam (geometry)', () => {
  it('a square as large as its corners: a circle', () => {
    const circle = { sideNumber: 1, layerNumber: 1, lengthM: 0.05, widthM: 0.05, cornerRadiusM: 0.025 };
    expect(edgeM(circle)).toBeCloseTo(Math.PI * 0.05, 12);
  });

  it('without round corners: the perimeter', () => {
    const sharp = { sideNumber: 1, layerNumber: 1, lengthM: 1, widthM: 0.2, cornerRadiusM: 0 };
    expect(edgeM(sharp)).toBeCloseTo(2.4, 12);
  });

  it('two cloths, one row round each: their edges one after the other', () => {
    const cloths = patchCloths(slit(1, 0.05));
    const seam = edgeSeam(cloths, 1, 'woven-heavy');
    const corners = 2 * (8 - 2 * Math.PI) * 0.025;
    expect(seam.lengthM).toBeCloseTo(2 * (1.1 + 0.12) + 2 * (1.14 + 0.16) - corners, 9);
    expect(seam).toMatchObject({ rowCount: 1, cloth: 'woven-heavy' });
  });

  // Web article on sail repair, 16 March 1999: two straight rows round the edge of a patch.
  it('a single cloth: two rows round it', () => {
    expect(usualEdgeRowCount({ ...slit(1, 0.05), sideCount: 1 })).toBe(2);
    expect(usualEdgeRowCount(slit(1, 0.05))).toBe(1);
  });
});

describe('patchStuff and glueKg (widths of the trade, 0.35 kg/m²: common practice, no source)', () => {
  const piece = (lengthM: number, widthM: number) => ({
    sideNumber: 1,
    layerNumber: 1,
    lengthM,
    widthM,
    cornerRadiusM: 0,
  });

  it.each([
    [0.02, 25],
    [0.025, 25],
    [0.05, 50],
    [0.07, 75],
    [0.12, 150],
    [0.15, 150],
  ])('%d m wide: tape of %d mm', (widthM, widthMm) => {
    expect(patchStuff(piece(1.1, widthM))).toEqual({ kind: 'tape', widthMm, lengthM: 1.1 });
  });

  it('turned round: the shorter way is the width', () => {
    expect(patchStuff(piece(0.1, 0.4))).toEqual({ kind: 'tape', widthMm: 100, lengthM: 0.4 });
  });

  it('wider than tape: cloth, from 300 mm; wider than the widest roll of 1370 mm: two widths', () => {
    expect(patchStuff(piece(1, 0.22))).toEqual({ kind: 'cloth', leastWidthMm: 300 });
    expect(patchStuff(piece(1, 0.5))).toEqual({ kind: 'cloth', leastWidthMm: 500 });
    expect(patchStuff(piece(2, 1.371))).toEqual({ kind: 'joined' });
  });

  it('a square metre bonded on one face: 0.35 kg', () => {
    expect(glueKg([piece(1, 1)])).toBeCloseTo(0.35, 12);
  });
});

// Ounce and inch: international yard and pound agreement (1959). 28.5 by 36 inches: common practice, no source.
describe('sailmaker’s ounces', () => {
  it('one: 42.8 g/m²; 3 and 4 of them: the 130 … 170 g/m² of adhesive cloth', () => {
    expect(Math.abs(gPerM2FromSailmakersOunces(1) - 42.8)).toBeLessThan(0.05);
    expect(Math.round(gPerM2FromSailmakersOunces(3) / 10) * 10).toBe(130);
    expect(Math.round(gPerM2FromSailmakersOunces(4) / 10) * 10).toBe(170);
  });

  it('there and back: the same', () => {
    expect(sailmakersOuncesFromGPerM2(gPerM2FromSailmakersOunces(7.3))).toBeCloseTo(7.3, 12);
  });
});
