import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  packDigest,
  readDigestBody,
  unpackDigest,
  writeDigestBody,
  type Digest,
  digestText,
} from '../../lib/message/digest/index.ts';
import { airCountOf, LANES_NM, nodeCountOf, placeCountOf, seaWaterCountOf } from '../../lib/message/digest/digest.ts';
import { onScale, SCALES, type Scale } from '../../lib/message/digest/scales.ts';
import { placeOnScale } from '../../lib/message/digest/way.ts';
import { MS_PER_H } from '../../lib/time/index.ts';

/** Any value of a scale; where it can be unknown, sometimes NaN. */
const of = (scale: Scale): fc.Arbitrary<number> =>
  fc
    .integer({ min: 0, max: 2 ** scale.bitCount - (scale.hasUnknown ? 2 : 1) })
    .map((code) => onScale(scale, scale.leastN + code * scale.stepN));
const orUnknown = (scale: Scale): fc.Arbitrary<number> =>
  fc.oneof({ weight: 9, arbitrary: of(scale) }, fc.constant(NaN));

const list = (value: fc.Arbitrary<number>, count: number): fc.Arbitrary<number[]> =>
  fc.array(value, { minLength: count, maxLength: count });

const anyPlace = fc
  .record({ lat: fc.double({ min: -90, max: 90, noNaN: true }), lon: fc.double({ min: -180, max: 180, noNaN: true }) })
  .map(placeOnScale);

const bareDigest = fc
  .record({ stepCount: fc.integer({ min: 2, max: 40 }), memberCount: fc.constantFrom(0, 2, 7, 51) })
  .chain(({ stepCount, memberCount }) =>
    fc.record({
      baseEpochMs: fc.integer({ min: 60_000, max: 300_000 }).map((hours) => Date.UTC(2020, 0, 1) + hours * MS_PER_H),
      firstH: fc.integer({ min: -24, max: 240 }),
      stepCount: fc.constant(stepCount),
      memberCount: fc.constant(memberCount),
      hasControl: fc.boolean(),
      holdsGust: fc.boolean(),
      places: fc.array(anyPlace, { minLength: placeCountOf(stepCount), maxLength: placeCountOf(stepCount) }),
      windKn: list(of(SCALES.windKn), stepCount),
      windFromDegTrue: list(of(SCALES.windFromDegTrue), stepCount),
      gustKn: list(orUnknown(SCALES.gustKn), stepCount),
      seaHeightM: list(orUnknown(SCALES.seaHeightM), stepCount),
      wavePeriodS: list(orUnknown(SCALES.wavePeriodS), stepCount),
      pressureHpa: list(orUnknown(SCALES.pressureHpa), stepCount),
      rainIndex: list(fc.constantFrom(0, 1, 2, 3, 4, NaN), stepCount),
      visibilityIndex: list(orUnknown(SCALES.visibilityIndex), stepCount),
      airC: list(orUnknown(SCALES.airC), airCountOf(stepCount)),
      seaWaterC: list(orUnknown(SCALES.seaWaterC), seaWaterCountOf(stepCount)),
      lanes: fc.array(
        fc.record({
          windKn: list(orUnknown(SCALES.laneWindKn), stepCount),
          turnDeg: list(orUnknown(SCALES.laneTurnDeg), stepCount),
          seaM: list(orUnknown(SCALES.laneSeaM), stepCount),
        }),
        { minLength: LANES_NM.length, maxLength: LANES_NM.length },
      ),
      timingH: list(of(SCALES.timingH), memberCount),
      modes: fc.array(
        fc.record({
          sizeIndex: of(SCALES.modeSize),
          values: list(of(SCALES.modeValue), 3 * nodeCountOf(stepCount)),
          scoresSd: list(of(SCALES.scoreSd), memberCount),
        }),
        { maxLength: 3 },
      ),
    }),
  );

const anyDigest: fc.Arbitrary<Digest> = bareDigest.map(({ firstH, timingH, modes, ...rest }) => ({
  ...rest,
  firstEpochMs: rest.baseEpochMs + firstH * MS_PER_H,
  spread: rest.memberCount === 0 ? null : { timingH, modes },
}));

const SEEDED = { seed: 71, numRuns: 60 };

describe('a digest as text', () => {
  it('reads back as it was written, whatever it holds', () => {
    fc.assert(
      fc.property(anyDigest, (digest) => {
        expect(unpackDigest(packDigest(digest), 'digest')).toEqual({ ok: true, value: digest });
        expect(readDigestBody(writeDigestBody(digest), 'digest')).toEqual({ ok: true, value: digest });
      }),
      SEEDED,
    );
  });

  it('is refused when a character is missing at the end, or one is added', () => {
    fc.assert(
      fc.property(anyDigest, (digest) => {
        const text = packDigest(digest);
        expect(unpackDigest(text.slice(0, -1), 'digest')).toMatchObject({ ok: false });
        expect(unpackDigest(`${text}A`, 'digest')).toMatchObject({ ok: false });
      }),
      SEEDED,
    );
  });

  it.each(['', 'A', '!', 'not a digest', '////', 'é'.repeat(40), 'A'.repeat(2000), '+'.repeat(2000)])(
    'refuses %j with a reason',
    (text) => {
      expect(unpackDigest(text, 'digest')).toMatchObject({
        ok: false,
        problems: [{ code: 'message.digest-damaged', where: 'digest' }],
      });
    },
  );

  it('is refused when the line for the eye says something else', () => {
    fc.assert(
      fc.property(anyDigest, (digest) => {
        const body = writeDigestBody(digest);
        expect(readDigestBody(body.replace('W', 'W1'), 'digest')).toMatchObject({ ok: false });
        expect(readDigestBody(packDigest(digest), 'digest')).toMatchObject({ ok: false });
      }),
      { ...SEEDED, numRuns: 10 },
    );
  });

  it('is told in words step by step, whatever it holds', () => {
    fc.assert(
      fc.property(anyDigest, (digest) => {
        const text = digestText(digest).join('\n');
        expect(text.match(/wind (from|not known)/g)).toHaveLength(digest.stepCount);
        expect(text).not.toMatch(/NaN|undefined|Infinity/);
      }),
      { ...SEEDED, numRuns: 10 },
    );
  });
});
