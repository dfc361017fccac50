/**
 * Every packing of both editions, in one field of 1440 × 721 points that ecCodes packs for the run, and real files of many
 * short messages. All can be made from what comes with the program; `npm run bench:grib` takes larger real files.
 */
import { type BenchCase, found, repacked } from '../bench-grib/cases.ts';

export interface GribBenchCase {
  readonly one: BenchCase;
  readonly isQuick: boolean;
}

const wave = (title: string, packingType: string, choice: { readonly bits?: number; readonly options?: string } = {}) =>
  repacked(
    title,
    {
      from: 'waves',
      widthBits: choice.bits ?? 12,
      packingType,
      ...(choice.options === undefined ? {} : { options: choice.options }),
    },
    { readers: true },
  );

const edition1 = (title: string, packingType: string, bits = 12): BenchCase =>
  repacked(title, { from: 'waves', widthBits: bits, packingType, edition: 1 }, { readers: true });

const quick = (one: BenchCase): GribBenchCase => ({ one, isQuick: true });
const whole = (one: BenchCase): GribBenchCase => ({ one, isQuick: false });
const DIFFERENCED = 'grid_complex_spatial_differencing';

export const GRIB_BENCH_CASES: readonly GribBenchCase[] = [
  quick(wave('5.0 simple, 16 bits', 'grid_simple', { bits: 16 })),
  whole(wave('5.0 simple, 12 bits', 'grid_simple')),
  whole(wave('5.0 simple, 24 bits', 'grid_simple', { bits: 24 })),
  whole(wave('5.2 complex, 12 bits', 'grid_complex')),
  whole(wave('5.3 complex, order 1, 12 bits', DIFFERENCED, { options: 'orderOfSpatialDifferencing=1' })),
  quick(wave('5.3 complex, order 2, 12 bits', DIFFERENCED, { options: 'orderOfSpatialDifferencing=2' })),
  whole(wave('5.4 IEEE, 32 bits', 'grid_ieee')),
  whole(wave('5.4 IEEE, 64 bits', 'grid_ieee', { options: 'precision=2' })),
  whole(wave('5.40 JPEG 2000, 12 bits', 'grid_jpeg')),
  whole(wave('5.41 PNG, 16 bits', 'grid_png', { bits: 16 })),
  quick(wave('5.42 CCSDS, 12 bits', 'grid_ccsds')),
  whole(wave('5.42 CCSDS, 16 bits', 'grid_ccsds', { bits: 16 })),
  quick(edition1('edition 1 simple, 16 bits', 'grid_simple', 16)),
  whole(edition1('edition 1 second order, order 2', 'grid_second_order')),
  whole(edition1('edition 1 second order, no differencing', 'grid_second_order_no_SPD')),
  whole(found('edition 1 second order, real file', 'franx01_second_order.grib1', { readers: true })),
  whole(found('many messages, 5.3', 'gfs_1p00_f000_2msg.grib2', { readers: true })),
  whole(found('many messages, 5.42', 'ifs_0p4_cut.grib2', { readers: true })),
  whole(found('many messages, edition 1', 'era5_members_cut.grib1', { readers: true })),
  whole(found('5.40 JPEG 2000, real file', 'gdps_tmp_jpeg.grib2', { readers: true })),
  whole(found('5.42 CCSDS, real file with a bitmap', 'mfwam_swell_ccsds_bitmap.grib2', { readers: true })),
  whole(found('5.0 simple, real file of an ensemble', 'gefs_ens_simple.grib2', { readers: true })),
];
