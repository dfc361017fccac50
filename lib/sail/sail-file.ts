/** The shape of a damage file: a sail by its counts, and what is torn or broken on it. */
import { z } from 'zod';

const text = z
  .string()
  .min(1)
  .max(120)
  .regex(/^\P{Cc}*$/u, 'text without control characters');
const id = z.string().regex(/^[A-Za-z0-9][A-Za-z0-9_-]{0,59}$/, 'letters, digits, - and _');
const side = z.number().min(0.5).max(60);
const ordinal = z.int().min(1).max(200);
const heights = z.array(z.number().positive().max(60)).max(12);

const battenStateFile = z.strictObject({
  batten: ordinal.describe('its number'),
  from: z.enum(['head', 'foot']).exactOptional().describe('end it is counted from; default head'),
  state: z.enum(['cracked', 'joined', 'missing']),
});

const battensFile = z.strictObject({
  count: z.int().min(0).max(12),
  kind: z.enum(['full', 'short']).exactOptional().describe('luff to leech, or near the leech only; default full'),
  leechHeightsM: heights
    .exactOptional()
    .describe('of each, from the clew along the leech, top batten first; default equal spacing'),
  lengthM: z.number().positive().max(20).exactOptional().describe('of short battens'),
  states: z.array(battenStateFile).max(12).exactOptional().describe('of those that are not whole'),
});

const reefsFile = z.strictObject({
  count: z.int().min(0).max(6),
  luffHeightsM: heights.exactOptional().describe('of each, from the tack along the luff, lowest first'),
  set: z.int().min(0).max(6).exactOptional().describe('the reef that is in now; 0 or left out: none'),
});

const gore = z.int().min(1).max(40);

const sailFile = z.strictObject({
  name: text.exactOptional(),
  kind: z.enum(['mainsail', 'headsail', 'staysail', 'trysail']),
  cut: z.enum(['cross-cut', 'radial']),
  luffM: side.exactOptional(),
  footM: side.exactOptional(),
  leechM: side.exactOptional().describe('straight from head to clew; used with luff and foot'),
  roachRatio: z
    .number()
    .min(0)
    .max(0.25)
    .exactOptional()
    .describe('greatest roach beyond the straight leech, as a share of the leech'),
  panelCount: z.int().min(1).max(60).describe('panels along the leech; of a radial sail all gores'),
  gores: z.strictObject({ tack: gore, clew: gore, head: gore }).exactOptional().describe('of a radial sail, by corner'),
  cloth: text.exactOptional().describe('cloth id of the stitch rates'),
  battens: battensFile.exactOptional(),
  reefs: reefsFile.exactOptional(),
});

const countedFile = z.strictObject({
  from: z
    .enum(['clew', 'tack', 'head'])
    .exactOptional()
    .describe('corner where the count begins; default clew, of a radial sail tack'),
  panel: ordinal,
  seam: z
    .enum(['next', 'before'])
    .exactOptional()
    .describe('on the seam to the next panel of the count, or on that to the panel before'),
});

const level = z.union([ordinal, z.literal('head'), z.literal('foot')], { error: 'a batten number, "head" or "foot"' });

const measures = ['chordShare', 'distanceFromLeechM', 'distanceFromLuffM', 'distanceFromFootM', 'distanceFromCornerM'];

const damageFile = z
  .strictObject({
    id: id.exactOptional(),
    counted: countedFile.exactOptional(),
    betweenBattens: z.tuple([level, level]).exactOptional().describe('two neighbours from the head, or head or foot'),
    belowReef: ordinal.exactOptional().describe('seen to lie wholly below this reef'),
    chordShare: z
      .number()
      .min(0)
      .max(1)
      .exactOptional()
      .describe('along the panel, 0 at the luff (or foot, or corner of a gore), 1 at the leech or outer end'),
    distanceFromLeechM: z.number().min(0).max(60).exactOptional(),
    distanceFromLuffM: z.number().min(0).max(60).exactOptional(),
    distanceFromFootM: z.number().min(0).max(60).exactOptional(),
    distanceFromCornerM: z.number().min(0).max(60).exactOptional().describe('along a gore from its corner'),
    lengthM: z.number().positive().max(60),
    widthM: z.number().min(0).max(3).exactOptional().describe('how far it gapes or is missing; default 0.02'),
    direction: z
      .enum(['across-the-load', 'along-the-load', 'along-the-seam', 'across-the-seam', 'fore-and-aft', 'up-and-down'])
      .exactOptional(),
    angleFromFootDeg: z
      .number()
      .min(-180)
      .max(180)
      .exactOptional()
      .describe('instead of direction; aft end up positive'),
  })
  .refine((of) => of.counted !== undefined || of.betweenBattens !== undefined, {
    error: 'a place: "counted" or "betweenBattens"',
  })
  .refine((of) => Object.keys(of).filter((key) => measures.includes(key)).length <= 1, {
    error: `one of ${measures.join(', ')}`,
  })
  .refine((of) => of.direction === undefined || of.angleFromFootDeg === undefined, {
    error: 'either direction or angleFromFootDeg',
  });

export const damageCaseFile = z.strictObject({
  sail: sailFile,
  damage: z.array(damageFile).max(20).exactOptional(),
});

export type SailFile = z.output<typeof sailFile>;
export type DamageFile = z.output<typeof damageFile>;
export type DamageCaseFile = z.output<typeof damageCaseFile>;
export type SailKind = SailFile['kind'];
export type Corner = 'tack' | 'clew' | 'head';
export type BattenState = 'whole' | 'cracked' | 'joined' | 'missing';
