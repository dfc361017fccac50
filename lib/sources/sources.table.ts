import type { Source } from './source.ts';

/** The bibliography: one entry a line, in alphabetical order of its id. */
export const sources = {
  BOWDEN_RAGSDALE_2018: {
    title: 'The truck driver scheduling problem with fatigue monitoring',
    who: 'Bowden, Ragsdale',
    year: 2018,
    where: 'Decision Support Systems 110 (journal and volume from memory; accepted manuscript read)',
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
  FIPS: {
    title: 'FIPS: Fatigue Impairment Prediction Suite, R package 0.2.1, R/simulation_threeprocessmodel.R',
    who: 'Human factors group of the University of Western Australia and others',
    year: 2020,
    where: 'github.com/humanfactors/FIPS',
  },
  INGRE_2014: {
    title: 'Validating and extending the three process model of alertness in airline operations',
    who: 'Ingre, van Leeuwen, Klemets, Ullvetter, Hough, Kecklund, Karlsson, Akerstedt',
    year: 2014,
    where: 'PLoS ONE 9(10):e108679',
  },
  WIND_CHILL_2001: {
    title: 'Wind chill index of 2001',
    who: 'Environment Canada; US National Weather Service',
    year: 2001,
    where: 'weather.gov/safety/cold-wind-chill-chart; metric form of Environment Canada',
  },
} as const satisfies Readonly<Record<string, Source>>;
