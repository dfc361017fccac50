/**
 * How stiff a batten is. Straight-beam arithmetic: small deflections, pultruded glass with all fibres along the rod.
 *
 * Bending stiffness (EI) is in newton square metres (N m²).
 */

/** Modulus along the fibres of pultruded glass; common practice, no source. Carbon is two to three times as stiff. */
const GLASS_MODULUS_PA = 40e9;
/** Density of the same; common practice, no source. */
const GLASS_KG_PER_M3 = 1950;
/** Strain at the surface that a rod stands for good; common practice, no source. */
const SAFE_STRAIN_RATIO = 0.012;

/** Standard acceleration of gravity: 3rd CGPM (1901). */
const GRAVITY_MPS2 = 9.80665;
/** The loft's sag test: a span of 1 m, 4 kg in its middle. */
const TEST_SPAN_M = 1;
const TEST_LOAD_KG = 4;

/** Shape of a solid batten across its length; a flat one bends over its thickness. */
export type BattenSection =
  | { readonly kind: 'round'; readonly diameterMm: number }
  | { readonly kind: 'flat'; readonly widthMm: number; readonly thicknessMm: number };

/** Depth in the direction it bends. */
const depthM = (section: BattenSection): number =>
  (section.kind === 'round' ? section.diameterMm : section.thicknessMm) / 1000;

/** Area [m²]. */
const sectionAreaM2 = (section: BattenSection): number =>
  section.kind === 'round'
    ? (Math.PI * depthM(section) ** 2) / 4
    : (section.widthMm / 1000) * (section.thicknessMm / 1000);

/** Second moment of area [m⁴]: πd⁴/64 of a circle, wt³/12 of a rectangle. */
const secondMomentM4 = (section: BattenSection): number =>
  section.kind === 'round'
    ? (Math.PI * depthM(section) ** 4) / 64
    : ((section.widthMm / 1000) * depthM(section) ** 3) / 12;

/** Bending stiffness EI [N m²]. */
export const bendingStiffnessNM2 = (section: BattenSection): number => GLASS_MODULUS_PA * secondMomentM4(section);

/**
 * Sag [mm] in the middle of a span, ends free to turn, load in the middle: F L³ / (48 EI).
 *
 * Without a load and span, the loft's test of 4 kg on 1 m. Above a tenth of the span the figure only compares rods:
 * a straight beam it is no longer.
 *
 * @see sources.BATTEN_SAG_TEST, test over 1 m
 */
export const sagMm = (section: BattenSection, spanM: number = TEST_SPAN_M, loadKg: number = TEST_LOAD_KG): number =>
  (1000 * loadKg * GRAVITY_MPS2 * spanM ** 3) / (48 * bendingStiffnessNM2(section));

/** Mass per metre [g/m]. */
export const massPerMetreG = (section: BattenSection): number => 1000 * GLASS_KG_PER_M3 * sectionAreaM2(section);

/** Smallest radius [m] it may be bent to: half its depth over the strain it stands, 1.2 %. */
export const leastBendRadiusM = (section: BattenSection): number => depthM(section) / 2 / SAFE_STRAIN_RATIO;

/**
 * How much stiffer two equal round rods side by side are than one.
 *
 * Loose or bent across the pair, twice; bonded and bent in the plane of both, ten times (parallel axes: 2 (1 + 4)).
 */
export const PAIR_STIFFNESS_RATIO = { looseRatio: 2, bondedAcrossRatio: 2, bondedInPlaneRatio: 10 } as const;
