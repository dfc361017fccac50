import {
  battenLimitText,
  type DamageReport,
  findingTexts,
  stitchText,
  type TearReport,
} from '../../../lib/sail/index.ts';

/** What `slatch damage --json` prints: places [m] with the origin at the tack, x aft, y up. */
export function damageJson({ shape, tears, battens }: DamageReport): object {
  const { outline } = shape;
  return {
    sail: {
      scale: outline.scale,
      luffM: outline.luffM,
      footM: outline.footM,
      leechM: outline.leechM,
      head: outline.head,
      clew: outline.clew,
      panelCount: shape.panels.length,
      battens: shape.battens.map(({ count, state, heightM, line }) => ({
        ...count,
        state,
        heightAboveFootM: heightM,
        line,
      })),
      reefs: shape.reefs.map(({ count, heightM, line }) => ({ ...count, heightAboveFootM: heightM, line })),
      taken: shape.taken,
    },
    damage: tears.map(tearJson),
    battens: battens.map((limit) => ({ ...limit, text: battenLimitText(limit) })),
  };
}

const tearJson = ({ mark, tear, findings, stitch }: TearReport): object => ({
  mark,
  id: tear.id,
  lengthM: tear.lengthM,
  line: tear.line,
  mayLie: tear.mayLie,
  findings,
  texts: [...findingTexts(findings), stitchText(stitch)],
  stitch,
});
