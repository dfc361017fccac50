/** The support table of the room's README: what is read or refused, and the sample that proves each row. */
import { decodePacked, type GribField, gridPositions, scanGrib } from '../../lib/grib/index.ts';
import { meaningOf, valueDifferences } from './golden-differences.ts';
import { goldenFiles, readGoldenBytes } from './golden-files.ts';
import { gridGoldens, lonDifferenceDeg } from './grid-messages.ts';
import { altered, complexMessage, smallMessage } from './sample-message.ts';
import { edition1Data, edition1Message, replaced } from './edition-1-message.ts';

/** One row; `proof` returns what speaks against it, nothing when it holds. */
export interface SupportRow {
  readonly what: string;
  readonly note: string;
  /** Samples, or what is done to one. */
  readonly provedBy: string;
  readonly proof: () => readonly string[];
}

interface Compared {
  readonly field: GribField;
  readonly bytes: Uint8Array;
  readonly golden: (typeof goldenFiles)[number]['fields'][number];
}

/** Fields of a sample with what ecCodes says of each. */
function compared(file: string): Compared[] {
  const bytes = readGoldenBytes(file);
  const golden = goldenFiles.find((one) => one.file === file)?.fields ?? [];
  return scanGrib(bytes, file).fields.flatMap((field, i) => {
    const theirs = golden[i];
    return theirs === undefined ? [] : [{ field, bytes, golden: theirs }];
  });
}

/** Samples of which at least one field is so packed, all such fields with the values that ecCodes reads. */
const values = (
  what: string,
  note: string,
  from: { readonly files: readonly string[]; readonly isMeant: (field: GribField) => boolean },
): SupportRow => ({
  what,
  note,
  provedBy: from.files.join(', '),
  proof: () =>
    from.files.flatMap((file) => {
      const meant = compared(file).filter(({ field, golden }) => from.isMeant(field) && golden.values !== null);
      const said = meant.flatMap(({ field, bytes, golden }) => {
        const decoded = decodePacked(bytes, field);
        if (!decoded.ok) return decoded.problems.map((problem) => problem.what);
        return golden.values === null ? [] : valueDifferences(decoded.value, golden.values);
      });
      return meant.length === 0 ? [`${file} has no such field`] : said;
    }),
});

const template =
  (templateNumber: number, bitsPerValue?: number) =>
  ({ packing }: GribField): boolean =>
    packing.templateNumber === templateNumber && (bitsPerValue === undefined || packing.bitsPerValue === bitsPerValue);

/** Places that ecCodes prints, of the committed messages of every grid. */
const places = (what: string, note: string, names: readonly string[]): SupportRow => ({
  what,
  note,
  provedBy: names.join(', '),
  proof: () => names.flatMap(placeDifferences),
});

const EQUAL_DEG = 0.001;

function placeDifferences(name: string): string[] {
  const golden = gridGoldens.find((one) => one.name === name);
  const [field] = golden === undefined ? [] : scanGrib(golden.bytes, name).fields;
  if (golden === undefined || field === undefined || field.grid.kind === 'unsupported')
    return [`${name} is not placed`];
  const { lats, lons } = gridPositions(field.grid);
  return golden.points.flatMap(([index, lat, lon]) => {
    const isHere =
      Math.abs((lats[index] ?? NaN) - lat) < EQUAL_DEG &&
      Math.abs(lonDifferenceDeg(lons[index] ?? NaN, lon)) * Math.cos((lat * Math.PI) / 180) < EQUAL_DEG;
    return isHere ? [] : [`${name}, point ${index}: ${lats[index]} ${lons[index]}, reference ${lat} ${lon}`];
  });
}

/** Valid time, statistic and member as ecCodes reads them. */
const meaning = (
  what: string,
  note: string,
  from: { readonly files: readonly string[]; readonly productTemplate: number | null },
): SupportRow => ({
  what,
  note,
  provedBy: from.files.join(', '),
  proof: () =>
    from.files.flatMap((file) => {
      const meant = compared(file).filter(({ field }) => field.productTemplate === from.productTemplate);
      const said = meant.flatMap(({ field, golden }) => {
        if (field.obstacles.product !== null) return [field.obstacles.product.what];
        const { ours, theirs } = meaningOf(field, golden.header);
        const [a, b] = [JSON.stringify(ours), JSON.stringify(theirs)];
        return a === b ? [] : [`${file}: ${a}, reference ${b}`];
      });
      return meant.length === 0 ? [`${file} has no such field`] : said;
    }),
});

/** A message that is refused, and the words of the refusal. */
const refused = (what: string, bytes: () => Uint8Array, words: string): SupportRow => ({
  what,
  note: 'refused by name',
  provedBy: 'a message with that code',
  proof: () => {
    const { fields, problems } = scanGrib(bytes(), 'refused');
    const said = [...problems, ...fields.flatMap(({ support }) => support ?? [])].map((problem) => problem.what);
    return said.some((sentence) => sentence.includes(words)) ? [] : [`it says: ${said.join(' ')}`];
  },
});

const small = smallMessage();
const inSmall = (sectionNumber: number, octet: number, octets: readonly number[]) => (): Uint8Array =>
  altered(small, { sectionNumber, octet }, octets);

export const SUPPORT_ROWS: readonly SupportRow[] = [
  values('5.0 simple', '1 to 32 bits', {
    files: [2, 3, 7, 11, 15, 17, 24, 25, 28, 32].map((bits) => `bits${String(bits).padStart(2, '0')}_simple.grib2`),
    isMeant: template(0),
  }),
  values('5.0 of 0 bits', 'a constant: the reference value, whatever the decimal factor', {
    files: ['hrrr_cfrzr_const.grib2'],
    isMeant: template(0, 0),
  }),
  values('5.2 complex', '', { files: ['sh_bm_complex.grib2'], isMeant: template(2) }),
  values('5.3 complex, differenced', 'order 0, 1 and 2', {
    files: ['am_nobm_complex_spatial_differencing.grib2', 'gfs_1p00_f000_2msg.grib2', 'missing_values_144x73.grib2'],
    isMeant: template(3),
  }),
  values('5.2, 5.3 missing-value management', 'primary; secondary by hand-made numbers', {
    files: ['gfs_0p25_f023_tmp_pv_missing.grib2', 'wind_solar_small.grib2'],
    isMeant: template(3),
  }),
  values('5.4 IEEE', '32 and 64 bits; 128 bits refused', {
    files: ['sh_nobm_ieee.grib2', 'sh_bm_ieee.grib2'],
    isMeant: template(4),
  }),
  values('5.40 JPEG 2000', 'one component, unsigned, to 31 bits, any width', {
    files: [
      'bits01_jpeg.grib2',
      'bits13_jpeg.grib2',
      'bits24_jpeg.grib2',
      'gdaswave_jpeg_cut.grib2',
      'gdps_tmp_jpeg.grib2',
    ],
    isMeant: template(40),
  }),
  values('5.41 PNG', 'grey of 1 to 16 bits, RGB and RGBA of 8', {
    files: ['bits01_png.grib2', 'bits09_png.grib2', 'bits16_png.grib2', 'bits20_png.grib2'],
    isMeant: template(41),
  }),
  values('5.42 CCSDS', '1 to 32 bits, every option of CCSDS 121.0-B but signed samples', {
    files: [
      'bits01_ccsds.grib2',
      'bits13_ccsds.grib2',
      'bits32_ccsds.grib2',
      'ifs_0p4_cut.grib2',
      'mfwam_swell_ccsds_bitmap.grib2',
    ],
    isMeant: template(42),
  }),
  values('edition 1 simple', '0 to 32 bits', {
    files: ['regular_ll_sfc.grib1', 'constant.grib1', 'gdaswave_cut.grib1'],
    isMeant: ({ edition, packing }) => edition === 1 && packing.method === 'simple',
  }),
  values(
    'edition 1 second order',
    'by rows, secondary bitmap, general extended of order 0 to 3; local 5.50001 and 5.50002',
    {
      files: ['franx01_second_order.grib1', 'sh_nobm_second_order.grib1', 'sh_bm_second_order_no_SPD.grib1'],
      isMeant: ({ packing }) => packing.method === 'second-order',
    },
  ),
  values('bitmaps', 'own and repeated ones (indicator 0 and 254), both editions', {
    files: ['am_bm_simple.grib2', 'eq_bm_simple.grib1', 'gfs_2p5_cut.grib2'],
    isMeant: ({ hasBitmap }) => hasBitmap,
  }),
  places('3.1, type 10 rotated latitude/longitude', 'winds turned to true', [
    'rotated',
    'rotated-over-pole',
    'edition-1-rotated',
  ]),
  places('3.10, type 1 Mercator', 'spheres and ellipsoids; rows from the grid lengths', [
    'mercator',
    'mercator-wgs84',
    'edition-1-mercator',
  ]),
  places('3.20, type 5 polar stereographic', 'winds turned to true', [
    'polar-north',
    'polar-over-pole',
    'edition-1-polar',
  ]),
  places('3.30, type 3 Lambert conformal', 'winds turned to true', [
    'lambert-secant',
    'lambert-tangent',
    'edition-1-lambert',
  ]),
  places('3.40, type 4 Gaussian', '', ['gaussian-n32', 'gaussian-part', 'edition-1-gaussian']),
  places('thinned rows', 'of latitude/longitude and Gaussian grids; expanded along each row', [
    'thinned-latlon',
    'reduced-n80',
    'edition-1-thinned-latlon',
    'edition-1-reduced-n32',
  ]),
  meaning('4.0', 'analysis or forecast', { files: ['gfs_1p00_f000_2msg.grib2'], productTemplate: 0 }),
  meaning('4.1', 'member of an ensemble', { files: ['gefs_ens_simple.grib2'], productTemplate: 1 }),
  meaning('4.2', 'mean, spread and others of an ensemble', {
    files: ['pdt2_mean.grib2', 'pdt2_spread.grib2'],
    productTemplate: 2,
  }),
  meaning('4.8', 'over an interval', {
    files: ['pdt8_apcp_3_6.grib2', 'pdt8_gust_max_3_6.grib2', 'cfrzr_and_cprat.grib'],
    productTemplate: 8,
  }),
  meaning('4.11', 'member, over an interval', { files: ['pdt11_apcp_member3.grib2'], productTemplate: 11 }),
  meaning('4.12', 'mean and others, over an interval', {
    files: ['pdt12_mean_accum.grib2', 's2s_pdt9_10_12.grib2'],
    productTemplate: 12,
  }),
  meaning('4.9', 'probability over an interval (4.5 at a point in time); not used in plans', {
    files: ['tpcprblty_cut.grib2', 's2s_pdt9_10_12.grib2'],
    productTemplate: 9,
  }),
  meaning('4.10', 'percentile over an interval (4.6 at a point in time); not used in plans', {
    files: ['s2s_pdt9_10_12.grib2'],
    productTemplate: 10,
  }),
  meaning('edition 1 times', 'range indicators 0 to 5 and 10', {
    files: ['era5_members_cut.grib1', 'soil_8vars.grib1', 'gdaswave_cut.grib1'],
    productTemplate: null,
  }),
  refused('5.1 matrix', inSmall(5, 10, [0, 1]), 'matrix'),
  refused('5.50, 5.51 spectral', inSmall(5, 10, [0, 50]), 'spectral'),
  refused('5.61 logarithm', inSmall(5, 10, [0, 61]), 'logarithm'),
  refused('5.200 run length', inSmall(5, 10, [0, 200]), 'run length'),
  refused(
    'edition 1 spherical harmonics',
    () => edition1Message({ data: replaced(edition1Data, 4, [0x80]) }),
    'spherical',
  ),
  refused('3.101 unstructured', () => readGoldenBytes('icon_global_tot_prec_const.grib2'), 'unstructured'),
  refused('3.90 space view', inSmall(3, 13, [0, 90]), 'space view'),
  refused('scanning with shifted rows', inSmall(3, 72, [0x48]), 'shifted by half a step'),
  refused('clusters, satellites, chemistry', inSmall(4, 8, [0, 32]), 'satellite'),
  refused(
    'reserved codes of complex packing',
    () => altered(complexMessage(), { sectionNumber: 5, octet: 48 }, [3]),
    '5.6',
  ),
];
