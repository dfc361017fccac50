/** Rows of grids that are no regular latitude/longitude grids, in a few packings each. */
import { SPREADS } from './field-values.ts';
import type { MatrixCase, MatrixRow, PackingChoice } from './matrix-case.ts';
import { PACKINGS } from './packings.ts';

/** A grid made of a sample of ecCodes. */
interface SampleGrid {
  readonly name: string;
  readonly sample: string;
  readonly edition: 1 | 2;
  readonly header: readonly string[];
  readonly ni: number;
  readonly pointCount: number;
}

const REGULAR_POINTS = 16 * 31;

const rotated = (edition: 1 | 2): SampleGrid => ({
  name: 'rotated latitude/longitude',
  sample: `rotated_ll_sfc_grib${edition}.tmpl`,
  edition,
  header: [
    'latitudeOfSouthernPoleInDegrees=-30',
    'longitudeOfSouthernPoleInDegrees=15',
    'angleOfRotationInDegrees=0',
    'latitudeOfFirstGridPointInDegrees=20',
    'latitudeOfLastGridPointInDegrees=-40',
    'longitudeOfFirstGridPointInDegrees=350',
    'longitudeOfLastGridPointInDegrees=20',
    'iDirectionIncrementInDegrees=2',
    'jDirectionIncrementInDegrees=2',
  ],
  ni: 16,
  pointCount: REGULAR_POINTS,
});

const gaussian = (edition: 1 | 2): SampleGrid => ({
  name: 'Gaussian',
  sample: `regular_gg_sfc_grib${edition}.tmpl`,
  edition,
  header: [],
  ni: 128,
  pointCount: 128 * 64,
});

const reducedGaussian = (edition: 1 | 2): SampleGrid => ({
  name: 'thinned Gaussian',
  sample: `reduced_gg_pl_32_grib${edition}.tmpl`,
  edition,
  header: [],
  ni: 128,
  pointCount: 6114,
});

const mercator = (edition: 1 | 2): SampleGrid => ({
  name: 'Mercator',
  sample: `regular_ll_sfc_grib${edition}.tmpl`,
  edition,
  header: [
    'gridType="mercator"',
    'Ni=16',
    'Nj=31',
    'latitudeOfFirstGridPointInDegrees=-20',
    'longitudeOfFirstGridPointInDegrees=10',
    'LaDInDegrees=20',
    'latitudeOfLastGridPointInDegrees=22.08',
    'longitudeOfLastGridPointInDegrees=31.533',
    // Equal lengths: ecCodes 2.28 lays rows and columns at the same distance.
    'DiInMetres=150000',
    'DjInMetres=150000',
    'jScansPositively=1',
  ],
  ni: 16,
  pointCount: REGULAR_POINTS,
});

const polar = (edition: 1 | 2): SampleGrid => ({
  name: 'polar stereographic',
  sample: `polar_stereographic_sfc_grib${edition}.tmpl`,
  edition,
  header: [
    'Nx=16',
    'Ny=31',
    'latitudeOfFirstGridPointInDegrees=45',
    'longitudeOfFirstGridPointInDegrees=300',
    'orientationOfTheGridInDegrees=350',
    'DxInMetres=150000',
    'DyInMetres=150000',
    'jScansPositively=1',
  ],
  ni: 16,
  pointCount: REGULAR_POINTS,
});

const lambert = (edition: 1 | 2): SampleGrid => ({
  name: 'Lambert',
  sample: `regular_ll_sfc_grib${edition}.tmpl`,
  edition,
  header: [
    'gridType="lambert"',
    'Nx=16',
    'Ny=31',
    'latitudeOfFirstGridPointInDegrees=20',
    'longitudeOfFirstGridPointInDegrees=240',
    ...(edition === 1 ? [] : ['LaDInDegrees=25']),
    'LoVInDegrees=265',
    'DxInMetres=81000',
    'DyInMetres=81000',
    'Latin1InDegrees=25',
    'Latin2InDegrees=45',
    'jScansPositively=1',
  ],
  ni: 16,
  pointCount: REGULAR_POINTS,
});

function casesOf(grid: SampleGrid): MatrixCase[] {
  const packings: readonly PackingChoice[] =
    grid.edition === 1
      ? [PACKINGS.simple1, PACKINGS.secondOrder1[0]]
      : [PACKINGS.simple, PACKINGS.complex, PACKINGS.ccsds];
  return packings.flatMap((packing, i) =>
    [false, true].map((isMasked) => ({
      ...grid,
      packing,
      isMasked,
      spread: SPREADS[i] ?? { least: 0, span: 1, patchCount: 1 },
      seed: 5000 + i,
      bitsPerValue: 12,
      decimalScaleFactor: 0,
      asked: { templateNumber: packing.templateNumber },
    })),
  );
}

/** One row per kind of grid, both editions in it. */
export function gridRows(): readonly MatrixRow[] {
  return [rotated, gaussian, reducedGaussian, mercator, polar, lambert].map((make) => ({
    name: `grid: ${make(2).name}`,
    cases: ([1, 2] as const).flatMap((edition) => casesOf(make(edition))),
  }));
}
