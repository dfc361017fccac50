/**
 * Names of small code tables about products.
 *
 * Edition 2: WMO-No. 306, Volume I.2, code tables 0.0, 1.4, 4.1 (disciplines 0 and 10), 4.3, 4.6, 4.7, 4.9, 4.11 and 4.15,
 * all named numbers, versions of 2022 to 2026 (github.com/wmo-im/GRIB2). Edition 1: Volume I.1, code table 5. Shortened.
 */
type Names = Readonly<Record<string, string>>;

/** Code table 0.0: discipline. */
export const DISCIPLINES: Names = {
  0: 'meteorology',
  1: 'hydrology',
  2: 'land surface',
  3: 'satellite remote sensing',
  4: 'space weather',
  10: 'oceanography',
  20: 'health and socio-economic impacts',
};

/** Code table 1.4: type of data. */
export const DATA_TYPES: Names = {
  0: 'analysis',
  1: 'forecast',
  2: 'analysis and forecast',
  3: 'control forecast',
  4: 'perturbed forecast',
  5: 'control and perturbed forecasts',
  6: 'processed satellite observations',
  7: 'processed radar observations',
  8: 'event probability',
  9: 'experimental',
  10: 'forecast by machine learning',
};

/** Code table 4.1: category, by discipline/category. */
export const CATEGORIES: Names = {
  '0/0': 'temperature',
  '0/1': 'moisture',
  '0/2': 'momentum',
  '0/3': 'mass',
  '0/4': 'short-wave radiation',
  '0/5': 'long-wave radiation',
  '0/6': 'cloud',
  '0/7': 'thermodynamic stability',
  '0/8': 'kinematic stability',
  '0/9': 'temperature probabilities',
  '0/10': 'moisture probabilities',
  '0/11': 'momentum probabilities',
  '0/12': 'mass probabilities',
  '0/13': 'aerosols',
  '0/14': 'trace gases',
  '0/15': 'radar',
  '0/16': 'forecast radar imagery',
  '0/17': 'electrodynamics',
  '0/18': 'nuclear and radiology',
  '0/19': 'physical atmospheric properties',
  '0/20': 'atmospheric chemical constituents',
  '0/21': 'thermodynamic properties',
  '0/190': 'text',
  '0/191': 'miscellaneous',
  '10/0': 'waves',
  '10/1': 'currents',
  '10/2': 'ice',
  '10/3': 'sea surface',
  '10/4': 'subsurface',
  '10/191': 'miscellaneous',
};

/** Code table 4.3: type of generating process. */
export const PROCESSES: Names = {
  0: 'analysis',
  1: 'initialization',
  2: 'forecast',
  3: 'bias corrected forecast',
  4: 'ensemble forecast',
  5: 'probability forecast',
  6: 'forecast error',
  7: 'analysis error',
  8: 'observation',
  9: 'climatology',
  10: 'probability-weighted forecast',
  11: 'bias corrected ensemble forecast',
  12: 'post-processed analysis',
  13: 'post-processed forecast',
  14: 'nowcast',
  15: 'hindcast',
  16: 'physical retrieval',
  17: 'regression analysis',
  18: 'difference between two forecasts',
  19: 'first guess',
  20: 'analysis increment',
  21: 'initialization increment',
};

/** Code table 4.6: type of ensemble forecast. */
export const ENSEMBLE_TYPES: Names = {
  0: 'unperturbed high-resolution control',
  1: 'unperturbed low-resolution control',
  2: 'negatively perturbed',
  3: 'positively perturbed',
  4: 'multi-model',
};

/** Code table 4.7: derived forecast. */
export const DERIVED_FORECASTS: Names = {
  0: 'unweighted mean of all members',
  1: 'weighted mean of all members',
  2: 'standard deviation about the cluster mean',
  3: 'normalised standard deviation about the cluster mean',
  4: 'spread of all members',
  5: 'large anomaly index',
  6: 'unweighted mean of the cluster members',
  7: 'interquartile range',
  8: 'minimum of all members',
  9: 'maximum of all members',
  10: 'variance of all members',
};

/** Code table 4.9: probability type. `lower` and `upper` stand for the limits. */
export const PROBABILITIES: Names = {
  0: 'below lower',
  1: 'above upper',
  2: 'from lower to below upper',
  3: 'above lower',
  4: 'below upper',
  5: 'equal to lower',
  6: 'above normal',
  7: 'near normal',
  8: 'below normal',
  9: 'of a category',
};

/** Code table 4.11: how the times of an interval follow one another. */
export const TIME_INCREMENTS: Names = {
  1: 'start of forecast moves, forecast time stays',
  2: 'start of forecast stays, forecast time moves',
  3: 'valid time stays, start of forecast moves later',
  4: 'valid time stays, start of forecast moves earlier',
  5: 'floating part of the interval',
};

/** Code table 4.15: how values were taken from the source grid. */
export const SPATIAL_PROCESSES: Names = {
  0: 'without interpolation',
  1: 'bilinear interpolation',
  2: 'bicubic interpolation',
  3: 'nearest point',
  4: 'budget interpolation',
  5: 'spectral interpolation',
  6: 'neighbour-budget interpolation',
};

/** Code table 4.91: type of interval. `lower` and `upper` stand for the first and second limit. */
export const INTERVAL_TYPES: Names = {
  0: 'below lower',
  1: 'above upper',
  2: 'from lower to below upper',
  3: 'above lower',
  4: 'below upper',
  5: 'up to lower',
  6: 'from upper',
  7: 'from lower to upper',
  8: 'from lower',
  9: 'up to upper',
  10: 'above lower to upper',
  11: 'equal to lower',
};

/** Code table 5 of edition 1: time range indicator, with P1 and P2 as in octets 19 and 20. */
export const TIME_RANGES_EDITION_1: Names = {
  0: 'forecast at P1',
  1: 'initialized analysis',
  2: 'from P1 to P2',
  3: 'average from P1 to P2',
  4: 'accumulation from P1 to P2',
  5: 'difference of P2 and P1',
  6: 'average from P1 to P2 before the reference time',
  7: 'average from P1 before to P2 after the reference time',
  10: 'forecast at P1, two octets',
  51: 'climatological mean',
  113: 'average of several forecasts with own reference times',
  114: 'accumulation of several forecasts with own reference times',
  115: 'average of several forecasts with one reference time',
  116: 'accumulation of several forecasts with one reference time',
  117: 'average of several forecasts for one valid time',
  118: 'variance of several analyses',
  119: 'standard deviation of several forecasts',
  123: 'average of several uninitialized analyses',
  124: 'accumulation of several uninitialized analyses',
  125: 'standard deviation of forecast tendencies',
};
