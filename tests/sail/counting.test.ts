import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { counted, ordinalText } from '../../lib/sail/index.ts';
import { panelCountedFrom } from '../../lib/sail/counted-strip.ts';
import { MAIN, problemsOf, reportOf } from './sail-cases.ts';

const SEED = { seed: 62 };

const numberFrom = (sail: object, corner: 'clew' | 'tack' | 'head', panelNumber: number): number | null =>
  panelCountedFrom(reportOf(sail).shape, corner, { panelNumber })?.panelNumber ?? null;

describe('counting from both ends', () => {
  it('batten 3 of 5 from the head is the 3rd from the foot, panel 6 of 12 the 7th from the head', () => {
    expect(counted(3, 5).otherNumber).toBe(3);
    expect(counted(6, 12).otherNumber).toBe(7);
  });

  it('counted twice: the same panel', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), fc.nat(), (panelCount, any) => {
        const panelNumber = (any % panelCount) + 1;
        const sail = { ...MAIN, panelCount };
        const { otherNumber } = counted(panelNumber, panelCount);
        expect(numberFrom(sail, 'clew', panelNumber)).toBe(panelNumber);
        expect(numberFrom(sail, 'head', otherNumber)).toBe(panelNumber);
      }),
      SEED,
    );
  });

  it('up the luff from the tack: the first panel is the one that reaches the tack', () => {
    // The tack stands E²/leech = 25/15.81 = 1.58 m up the leech; panels are 1.318 m wide: the second.
    expect(numberFrom(MAIN, 'tack', 1)).toBe(2);
    expect(numberFrom(MAIN, 'tack', 11)).toBe(12);
    expect(problemsOf(MAIN, [{ counted: { from: 'tack', panel: 12 }, lengthM: 1 }])[0]).toMatchObject({
      code: 'damage.panel',
      expected: '1 to 11, the panels that reach the luff',
    });
  });

  it('gores: on from the corner named, around by tack, clew, head', () => {
    const radial = { kind: 'headsail', cut: 'radial', panelCount: 12, gores: { tack: 3, clew: 5, head: 4 } };
    expect([1, 4].map((panelNumber) => numberFrom(radial, 'clew', panelNumber))).toEqual([4, 7]);
    expect([1, 4, 5].map((panelNumber) => numberFrom(radial, 'head', panelNumber))).toEqual([9, 12, 1]);
    expect(numberFrom(radial, 'tack', 13)).toBeNull();
  });

  it('a seam said from either side: the same seam', () => {
    const at = (said: object): object | undefined =>
      reportOf(MAIN, [{ counted: said, chordShare: 0.5, lengthM: 0.4, direction: 'along-the-seam' }]).tears[0]?.tear
        .line;
    const seam = at({ from: 'clew', panel: 4, seam: 'next' });
    expect(at({ from: 'clew', panel: 5, seam: 'before' })).toEqual(seam);
    expect(at({ from: 'head', panel: 8, seam: 'next' })).toEqual(at({ from: 'clew', panel: 5, seam: 'before' }));
    expect(at({ from: 'head', panel: 9, seam: 'before' })).toEqual(seam);
  });

  it('English ordinals', () => {
    expect([1, 2, 3, 4, 11, 12, 13, 21, 22, 111].map(ordinalText).join(' ')).toBe(
      '1st 2nd 3rd 4th 11th 12th 13th 21st 22nd 111th',
    );
  });
});
