/** The shape of a cut file (JSON). Lengths and diameters in millimetres. */
import { z } from 'zod';

/** Printed on terminals and pages: no control characters. */
const name = z
  .string()
  .min(1)
  .max(60)
  .regex(/^\P{Cc}*$/u, 'text without control characters');
const positiveMm = (mostMm: number): z.ZodNumber => z.number().positive().max(mostMm);
const lengthMm = positiveMm(1_000_000);
const diameterMm = positiveMm(1000);
const count = z.int().min(0).max(5000).exactOptional().describe('default 1');
const spanMm = z.number().min(0).max(1_000_000);

const stockFile = z.strictObject({ id: name, lengthMm, diameterMm, count });

const pieceFile = z.strictObject({
  id: name,
  lengthMm: lengthMm.describe('finished'),
  diameterMm,
  count,
  priority: z.int().min(0).max(1000).exactOptional().describe('1 … 9 as for jobs, more is more important; default 5'),
  maxJoins: z.int().min(0).max(12).exactOptional().describe('joints allowed in one piece; default 0'),
  overlapMm: spanMm.exactOptional().describe('length of one joint'),
  overlapRatio: z.number().min(0).max(200).exactOptional().describe('the same in diameters, instead; default 20'),
  endAllowanceMm: spanMm.exactOptional().describe('cut longer by so much in all, left on at the far end; default 0'),
  shortestPartMm: spanMm.exactOptional().describe('shortest part of a joined piece; default two overlaps'),
  noJoinZonesMm: z
    .array(z.tuple([spanMm, spanMm]))
    .max(50)
    .exactOptional()
    .describe('from … to on the finished piece, where no joint may lie'),
});

/** Parts of the file, read one by one so that everything wrong with any of them is told. */
export const cutFile = z.strictObject({
  kerfMm: z.number().min(0).max(50).exactOptional().describe('lost in each cut; default 3'),
  stock: z.array(stockFile).max(2000),
  pieces: z.array(pieceFile).min(1).max(2000),
});

/** What a passage wants cut; the stock is what its locker holds. */
export const cuttingFile = cutFile.omit({ stock: true });

export type CuttingFile = z.output<typeof cuttingFile>;
export type CutFile = z.output<typeof cutFile>;
export type PieceFile = CutFile['pieces'][number];
