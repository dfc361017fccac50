import {
  combinedSeaHeightM,
  deepWaterWave,
  encounterPeriodByCircularS,
  encounterPeriodS,
  meanOfHighestRatio,
  modalHighestRatio,
  rayleighHeightM,
  seaState,
  steepnessRatio,
} from '../../lib/weather/index.ts';
import type { Topic } from './check-item.ts';
import { numberIn } from './inputs.ts';

export const seaTopics: readonly Topic[] = [
  {
    topic: 'rayleigh-exceedance',
    compute: ({ inputs }) => ({
      h: rayleighHeightM({ seaHeightM: numberIn(inputs, 'hs'), oneInCount: numberIn(inputs, 'oneIn') }),
    }),
  },
  {
    topic: 'rayleigh-mean-of-highest',
    compute: ({ inputs }) => ({ ratioToHs: meanOfHighestRatio(numberIn(inputs, 'fraction')) }),
  },
  {
    topic: 'rayleigh-modal-max',
    compute: ({ inputs }) => ({ ratioToHs: modalHighestRatio(numberIn(inputs, 'waves')) }),
  },
  { topic: 'deep-water', compute: ({ inputs }) => ({ ...deepWaterWave(numberIn(inputs, 'T')) }) },
  {
    topic: 'encounter-period',
    compute: ({ inputs }) => ({
      te: encounterPeriodS({
        wavePeriodS: numberIn(inputs, 'T'),
        boatSpeedKn: numberIn(inputs, 'boatKn'),
        fromAsternDeg: numberIn(inputs, 'muDeg'),
      }),
    }),
  },
  {
    topic: 'encounter-period-imo',
    compute: ({ inputs }) => ({
      te: encounterPeriodByCircularS({
        wavePeriodS: numberIn(inputs, 'T'),
        boatSpeedKn: numberIn(inputs, 'boatKn'),
        fromAheadDeg: numberIn(inputs, 'alphaDeg'),
      }),
    }),
  },
  {
    topic: 'steepness',
    compute: ({ inputs }) => ({
      steepness: steepnessRatio({ seaHeightM: numberIn(inputs, 'hs'), wavePeriodS: numberIn(inputs, 'T') }),
    }),
  },
  {
    topic: 'combine-seas',
    compute: ({ inputs }) => ({
      hs: combinedSeaHeightM([numberIn(inputs, 'windSeaHs'), numberIn(inputs, 'swellHs')]),
    }),
  },
  { topic: 'sea-state-3700', compute: ({ inputs }) => ({ code: seaState(numberIn(inputs, 'hs')).stateCode }) },
];
