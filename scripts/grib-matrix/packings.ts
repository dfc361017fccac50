/** Packings as ecCodes names them. */
import type { PackingChoice } from './matrix-case.ts';

const edition1 = (packingType: string): PackingChoice => ({ packingType, templateNumber: null });
const secondOrder1 = (name: string): PackingChoice => ({ ...edition1(`grid_second_order${name}`), hasOwnWidths: true });

export const PACKINGS = {
  simple: { packingType: 'grid_simple', templateNumber: 0 },
  complex: { packingType: 'grid_complex', templateNumber: 2 },
  /** ecCodes 2.28 writes template 5.3 with differencing of order 0 only. */
  differenced: { packingType: 'grid_complex_spatial_differencing', templateNumber: 3 },
  ieee32: { packingType: 'grid_ieee', templateNumber: 4 },
  ieee64: { packingType: 'grid_ieee', options: ['precision=2'], templateNumber: 4 },
  jpeg: { packingType: 'grid_jpeg', templateNumber: 40 },
  jpegLossy: {
    packingType: 'grid_jpeg',
    options: ['typeOfCompressionUsed=1', 'targetCompressionRatio=4'],
    templateNumber: 40,
  },
  png: { packingType: 'grid_png', templateNumber: 41 },
  ccsds: { packingType: 'grid_ccsds', templateNumber: 42 },
  ccsdsWith: (wanted: { flags: number; blockCount: number; intervalCount: number }): PackingChoice => ({
    packingType: 'grid_ccsds',
    options: [`ccsdsFlags=${wanted.flags}`, `ccsdsBlockSize=${wanted.blockCount}`, `ccsdsRsi=${wanted.intervalCount}`],
    templateNumber: 42,
  }),
  logarithm: { packingType: 'grid_simple_log_preprocessing', templateNumber: 61, hasOwnWidths: true },
  /** Setting a key again packs the values again: from a simple field alone ecCodes loses the scale factors. */
  secondOrder2: {
    packingType: 'grid_second_order',
    options: ['decimalScaleFactor=0'],
    templateNumber: 50_002,
    hasOwnWidths: true,
  },
  simple1: edition1('grid_simple'),
  ieee1: edition1('grid_ieee'),
  secondOrder1: [
    secondOrder1(''),
    secondOrder1('_no_SPD'),
    secondOrder1('_SPD1'),
    secondOrder1('_SPD3'),
    secondOrder1('_no_boustrophedonic'),
  ],
} as const satisfies Record<string, PackingChoice | readonly PackingChoice[] | ((wanted: never) => PackingChoice)>;
