/** What the benchmark decodes, and how fast it should be against the ecCodes C library. */

/** A file by its name, looked for in the folder given. */
export interface FoundSource {
  readonly kind: 'found';
  readonly fileName: string;
}

/** A file made from another with `grib_set`. */
export interface RepackedSource {
  readonly kind: 'repacked';
  /** A file by its name, or `waves`: one field of 1440 × 721 points that the script makes itself. */
  readonly from: string;
  readonly widthBits: number;
  /** ecCodes' `packingType`. */
  readonly packingType: string;
  readonly edition?: 1;
  /** Keys set with the packing. */
  readonly options?: string;
}

export interface BenchCase {
  readonly title: string;
  readonly source: FoundSource | RepackedSource;
  /** Our values per second over the reference's; null where none is set. */
  readonly targetRatio: number | null;
  /** What is measured: all values, or the headers alone. */
  readonly measures: 'values' | 'index';
  /** Other readers from npm try it too. */
  readonly isForReaders: boolean;
  /** Octets per value are measured. */
  readonly isForMemory: boolean;
}

/** Targets: many short messages; simple; complex; CCSDS; PNG; JPEG 2000. */
const TARGETS = { many: 2, simple: 1, complex: 0.9, ccsds: 0.6, png: 0.8, jpeg: 0.25 } as const;

export interface CaseChoice {
  readonly target?: keyof typeof TARGETS;
  readonly measures?: 'index';
  readonly readers?: true;
  readonly memory?: true;
}

const caseOf = (title: string, source: BenchCase['source'], choice: CaseChoice): BenchCase => ({
  title,
  source,
  targetRatio: choice.target === undefined ? null : TARGETS[choice.target],
  measures: choice.measures ?? 'values',
  isForReaders: choice.readers ?? false,
  isForMemory: choice.memory ?? false,
});

/** A file that is there. */
export const found = (title: string, fileName: string, choice: CaseChoice): BenchCase =>
  caseOf(title, { kind: 'found', fileName }, choice);

/** A file packed for the run. */
export const repacked = (title: string, source: Omit<RepackedSource, 'kind'>, choice: CaseChoice): BenchCase =>
  caseOf(title, { kind: 'repacked', ...source }, choice);

const GFS_2P5 = 'gfs_2p5_f072_multifield.grb';
const GFS_0P25 = 'gfs_0p25_complex.grib2';
/** All short widths, then every step at which an unpacker may change its way. */
const WIDTHS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 14, 16, 17, 18, 20, 24, 25, 28, 31, 32];

const MANY_MESSAGES: readonly BenchCase[] = [
  found('many messages, 5.3 order 1', GFS_2P5, { target: 'many', readers: true }),
  ...['simple', 'ccsds', 'png'].map((packing) =>
    repacked(
      `many messages, ${packing}`,
      { from: GFS_2P5, widthBits: 12, packingType: `grid_${packing}` },
      { target: 'many' },
    ),
  ),
  found('many messages, 5.0, Lambert', 'eta_lambert_multifield.grb', { target: 'many' }),
  found('many messages, edition 1', 'era5_members_20msg.grib1', { target: 'many' }),
  found('index only, 5.3', GFS_2P5, { measures: 'index' }),
  found('index only, edition 1', 'era5_members_20msg.grib1', { measures: 'index' }),
];

const SIMPLE: readonly BenchCase[] = [
  ...WIDTHS.map((widthBits) =>
    repacked(
      `5.0 simple, ${widthBits} bits`,
      { from: 'waves', widthBits, packingType: 'grid_simple' },
      { target: 'simple', ...(widthBits === 16 ? { readers: true, memory: true } : {}) },
    ),
  ),
  found('5.0 simple, 16 bits, real file', 'icon_eu_t2m_2020_simple16.grib2', { target: 'simple', readers: true }),
  found('5.0 simple, 16 bits, Section 2', 'cosmo_de_t2m_simple16.grib2', { target: 'simple', readers: true }),
];

const OTHER_EDITION_2: readonly BenchCase[] = [
  repacked(
    '5.2 complex',
    { from: GFS_0P25, widthBits: 12, packingType: 'grid_complex' },
    { target: 'complex', readers: true, memory: true },
  ),
  found('5.2 complex, missing values', 'ndfd_waveh_mercator.grib', { target: 'complex' }),
  found('5.3 order 2', GFS_0P25, { target: 'complex', readers: true, memory: true }),
  found('5.3 order 2, 7 bits', 'gdas_0p25_vrate.grib2', { target: 'complex', readers: true }),
  found('5.3, one message of many fields', 'jma_meps_multifield_complex.bin', { target: 'complex' }),
  repacked('5.4 IEEE, 32 bits', { from: 'waves', widthBits: 16, packingType: 'grid_ieee' }, { readers: true }),
  repacked('5.4 IEEE, 64 bits', { from: 'waves', widthBits: 16, packingType: 'grid_ieee', options: 'precision=2' }, {}),
  found('5.40 JPEG 2000', 'gfs_0p25_jpeg.grib2', { target: 'jpeg', readers: true, memory: true }),
  found('5.40 JPEG 2000, bitmap', 'gfswave_atlocn_0p16_f001.grib2', { target: 'jpeg' }),
  found('5.40 JPEG 2000, 12 bits', 'gdps_tmp_jpeg.grib2', { target: 'jpeg' }),
  found('5.41 PNG', 'gfs_0p25_png.grib2', { target: 'png', readers: true, memory: true }),
  ...[8, 12, 24].map((widthBits) =>
    repacked(`5.41 PNG, ${widthBits} bits`, { from: GFS_0P25, widthBits, packingType: 'grid_png' }, { target: 'png' }),
  ),
  found('5.42 CCSDS, 8 and 16 bits', 'ifs_oper_surface_2026.grib2', { target: 'ccsds', readers: true, memory: true }),
  found('5.42 CCSDS, 0.4°', 'ifs_0p4_20240101_10msg.grib2', { target: 'ccsds' }),
  found('5.42 CCSDS, 12 bits', 'aifs_ens_cf_t500.grib2', { target: 'ccsds' }),
  found('5.42 CCSDS, 16 bits, bitmap', 'mfwam_swell_ccsds_bitmap.grib2', { target: 'ccsds' }),
];

const EDITION_1: readonly BenchCase[] = [
  ...[8, 12, 16, 24].map((widthBits) =>
    repacked(
      `edition 1 simple, ${widthBits} bits`,
      { from: 'waves', widthBits, packingType: 'grid_simple', edition: 1 },
      { target: 'simple' },
    ),
  ),
  found('edition 1 simple, bitmap', 'gdaswave_wcoast_0p16.grib1', { target: 'simple', readers: true }),
  repacked(
    'edition 1 second order',
    { from: 'waves', widthBits: 12, packingType: 'grid_second_order', edition: 1 },
    {},
  ),
  found('edition 1 second order, real file', 'franx01_second_order.grib1', {}),
];

export const BENCH_CASES: readonly BenchCase[] = [...MANY_MESSAGES, ...SIMPLE, ...OTHER_EDITION_2, ...EDITION_1];
