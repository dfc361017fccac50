import type { Source } from './source.ts';

/** The bibliography: one entry a line, in alphabetical order of its id. */
export const sources = {
  ALLEN_PLOURDE_1999: {
    title: 'Review of leeway: field experiments and implementation',
    who: 'Allen, Plourde',
    year: 1999,
    where: 'US Coast Guard report CG-D-08-99; figures as published with OpenDrift, OBJECTPROP.DAT',
  },
  BOWDEN_RAGSDALE_2018: {
    title: 'The truck driver scheduling problem with fatigue monitoring',
    who: 'Bowden, Ragsdale',
    year: 2018,
    where: 'Decision Support Systems 110 (journal and volume from memory; accepted manuscript read)',
  },
  BOWDITCH_2024: {
    title: 'The American Practical Navigator',
    who: 'N. Bowditch; National Geospatial-Intelligence Agency',
    year: 2024,
    where: 'NGA Pub. 9, chapter on the sailings (quoted at second hand)',
  },
  DAANEN_2009: {
    title: 'Manual performance deterioration in the cold estimated using the wind chill equivalent temperature',
    who: 'Daanen',
    year: 2009,
    where: 'Industrial Health 47:262-270',
  },
  DAWSON_MCCULLOCH_2005: {
    title: "Managing fatigue: it's about sleep",
    who: 'Dawson, McCulloch',
    year: 2005,
    where: 'Sleep Medicine Reviews 9:365-380',
  },
  DAWSON_REID_1997: {
    title: 'Fatigue, alcohol and performance impairment',
    who: 'Dawson, Reid',
    year: 1997,
    where: 'Nature 388:235',
  },
  DNV_H101_2011: {
    title: 'Marine Operations, General',
    who: 'Det Norske Veritas',
    year: 2011,
    where: 'DNV-OS-H101, October 2011, Sec. 4 B400-B700 (the tables, from a public copy)',
  },
  FIPS: {
    title: 'FIPS: Fatigue Impairment Prediction Suite, R package 0.2.1, R/simulation_threeprocessmodel.R',
    who: 'The FIPS authors',
    year: 2020,
    where: 'github.com/humanfactors/FIPS',
  },
  GPX_1_1: {
    title: 'GPX 1.1 schema documentation',
    who: 'TopoGrafix',
    year: 2004,
    where: 'http://www.topografix.com/GPX/1/1',
  },
  HARPER_2010: {
    title: 'Guidelines for converting between various wind averaging periods in tropical cyclone conditions',
    who: 'Harper, Kepert, Ginger',
    year: 2010,
    where: 'WMO/TD-No. 1555, Table 1.1 (quoted at second hand)',
  },
  HSU_1994: {
    title: 'Determining the power-law wind-profile exponent under near-neutral stability conditions at sea',
    who: 'Hsu, Meindl, Gilhousen',
    year: 1994,
    where: 'Journal of Applied Meteorology 33:757-765',
  },
  IMO_1228: {
    title: 'Revised guidance to the master for avoiding dangerous situations in adverse weather and sea conditions',
    who: 'International Maritime Organization',
    year: 2007,
    where: 'MSC.1/Circ.1228 (formula from memory)',
  },
  INGRE_2014: {
    title: 'Validating and extending the three process model of alertness in airline operations',
    who: 'Ingre, van Leeuwen, Klemets, Ullvetter, Hough, Kecklund, Karlsson, Akerstedt',
    year: 2014,
    where: 'PLoS ONE 9(10):e108679',
  },
  IRNICH_DESAULNIERS_2005: {
    title: 'Shortest path problems with resource constraints',
    who: 'Irnich, Desaulniers',
    year: 2005,
    where: 'in Column Generation, Springer, pp. 33-65; first as Cahiers du GERAD G-2004-11',
  },
  KUROIWA_BECK_2023: {
    title: 'Solving domain-independent dynamic programming problems with anytime heuristic search',
    who: 'Kuroiwa, Beck',
    year: 2023,
    where: 'ICAPS 2023 (abstract read)',
  },
  LONGUET_HIGGINS_1952: {
    title: 'On the statistical distribution of the heights of sea waves',
    who: 'Longuet-Higgins',
    year: 1952,
    where: 'Journal of Marine Research 11:245-266 (pages from memory)',
  },
  MARJANOVIC_2025: {
    title: 'Article on errors of wind and wave forecasts, North Atlantic winter (title not seen)',
    who: 'Marjanović and others',
    year: 2025,
    where: 'Journal of Marine Science and Engineering 13(6):1185 (abstract at second hand)',
  },
  MEEUS_1998: {
    title: 'Astronomical Algorithms',
    who: 'Meeus',
    year: 1998,
    where: 'Willmann-Bell, 2nd edition',
  },
  WILCKEN_2012: {
    title: 'Thesis with the bias and spread of wave height forecasts by lead time (title not seen)',
    who: 'Wilcken',
    year: 2012,
    where: 'MSc thesis, University of Stavanger, hdl.handle.net/11250/182992, Table 10 (quoted at second hand)',
  },
  WILLIAMS_AVIATION: {
    title: 'Aviation Formulary V1.47',
    who: 'E. Williams',
    year: 2013,
    where: 'edwilliams.org/avform147.htm (year from memory)',
  },
  WIND_CHILL_2001: {
    title: 'Wind chill index of 2001',
    who: 'Environment Canada; US National Weather Service',
    year: 2001,
    where: 'weather.gov/safety/cold-wind-chill-chart; metric form of Environment Canada',
  },
  WMO_306: {
    title: 'Manual on Codes, Volume I.1, Code Table 3700',
    who: 'World Meteorological Organization',
    year: 2019,
    where: 'WMO-No. 306 (year of the edition from memory)',
  },
  WMO_558: {
    title: 'Manual on Marine Meteorological Services, Beaufort scale of wind',
    who: 'World Meteorological Organization',
    year: 2018,
    where: 'WMO-No. 558 (year of the edition from memory; same figures at the UK Met Office)',
  },
} as const satisfies Readonly<Record<string, Source>>;
