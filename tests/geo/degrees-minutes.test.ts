import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatLat, formatLon, formatPosition, parsePosition } from '../../lib/geo/index.ts';

describe('formatPosition', () => {
  it('minutes that round up to 60: carried into the degrees', () => {
    expect(formatLat(-33.9999)).toBe("34°00.0'S");
    expect(formatLon(59.99999)).toBe("060°00.0'E");
    expect(formatPosition({ lat: 0.99999, lon: -9.99999 }, 0)).toBe("01°00'N 010°00'W");
  });

  it('nought from below: no hemisphere of its own, north and east', () => {
    expect(formatPosition({ lat: -0.000001, lon: -0.000001 })).toBe("00°00.0'N 000°00.0'E");
  });

  it('180° east is 180° west', () => {
    expect(formatLon(180)).toBe("180°00.0'W");
  });
});

describe('parsePosition', () => {
  it.each([
    ["12°45.2'N 124°20.1'E", 12.753333, 124.335],
    ['S34-12.3 E018-30.0', -34.205, 18.5],
    ['34-12.3S 018-30.0E', -34.205, 18.5],
    ['34 12.3 S, 18 30 E', -34.205, 18.5],
    ['34.205S 18.5E', -34.205, 18.5],
    ['-34.205, 18.5', -34.205, 18.5],
    ['-34.205 -170', -34.205, -170],
    [`37°57'3.72"S 144°25'29.52"E`, -37.951033, 144.424867],
    ['40n 30w', 40, -30],
  ])('%s: read', (text, lat, lon) => {
    const read = parsePosition(text, 'here');
    expect(read.ok ? read.value.lat : NaN).toBeCloseTo(lat, 6);
    expect(read.ok ? read.value.lon : NaN).toBeCloseTo(lon, 6);
  });

  it.each(['', 'abc', '91N 10E', '10N 181E', "10°60'N 20°00'E", '10N', '10E 20N', '10N 20N', '95, 10', '1,2,3'])(
    '"%s": refused',
    (text) => {
      const read = parsePosition(text, 'here');
      expect(read.ok ? [] : read.problems.map(({ code, where }) => ({ code, where }))).toEqual([
        { code: 'geo.not-a-position', where: 'here' },
      ]);
    },
  );

  it('any position, written and read again: the same to the digits written', () => {
    const at = fc.record({
      lat: fc.double({ min: -90, max: 90, noNaN: true }),
      lon: fc.double({ min: -179.999, max: 179.999, noNaN: true }),
    });
    fc.assert(
      fc.property(at, (position) => {
        const read = parsePosition(formatPosition(position, 3), 'here');
        expect(read.ok).toBe(true);
        if (!read.ok) return;
        expect(Math.abs(read.value.lat - position.lat)).toBeLessThan(0.0006 / 60);
        expect(Math.abs(read.value.lon - position.lon)).toBeLessThan(0.0006 / 60);
      }),
      { seed: 22 },
    );
  });
});
