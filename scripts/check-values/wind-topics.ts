import { leeway, leewayRow } from '../../lib/boat/index.ts';
import { cFromK, hpaFromPa, knFromMps, mpsFromKn } from '../../lib/units/index.ts';
import {
  apparentWind,
  beaufort,
  beaufortSpeedMps,
  gustFactorRatio,
  sigmaDirectionDeg,
  sigmaSeaHeightM,
  sigmaTimeH,
  sigmaWindKn,
  standardSeaAlphaRatio,
  standardWindAlphaRatio,
  trueWind,
  windBarb,
  windComponents,
  windHeightRatio,
  type GustExposure,
  type SeaAlphaTable,
} from '../../lib/weather/index.ts';
import type { CheckItem, Topic } from './check-item.ts';
import { numberIn, textIn } from './inputs.ts';

function unitAnswers({ inputs }: CheckItem): Record<string, unknown> {
  const answers: Record<string, unknown> = {};
  if (inputs['nm'] !== undefined) answers['m'] = mpsFromKn(numberIn(inputs, 'nm')) * 3600;
  if (inputs['kn'] !== undefined) answers['ms'] = mpsFromKn(numberIn(inputs, 'kn'));
  if (inputs['kn'] !== undefined) answers['kmh'] = mpsFromKn(numberIn(inputs, 'kn')) * 3.6;
  if (inputs['ms'] !== undefined) answers['kn'] = knFromMps(numberIn(inputs, 'ms'));
  if (inputs['k'] !== undefined) answers['c'] = cFromK(numberIn(inputs, 'k'));
  if (inputs['pa'] !== undefined) answers['hpa'] = hpaFromPa(numberIn(inputs, 'pa'));
  return answers;
}

function trueWindAnswers({ inputs }: CheckItem): Record<string, unknown> {
  const wind = trueWind({
    awsKn: numberIn(inputs, 'apparentKn'),
    awaDeg: numberIn(inputs, 'apparentRelDeg'),
    boatSpeedKn: numberIn(inputs, 'speedKn'),
    headingTowardDegTrue: numberIn(inputs, 'headingDeg'),
  });
  return { trueKn: wind.windKn, trueFromDeg: wind.windFromDegTrue, twaDeg: wind.twaDeg };
}

function componentAnswers({ inputs }: CheckItem): Record<string, unknown> {
  const wind = { windKn: numberIn(inputs, 'windKn'), windFromDegTrue: numberIn(inputs, 'windFromDeg') };
  const { headKn, crossKn } = windComponents(wind, numberIn(inputs, 'headingDeg'));
  return { headKn, crossKn: Math.abs(crossKn), crossFrom: crossKn >= 0 ? 'right' : 'left' };
}

const EXPOSURES: readonly GustExposure[] = ['at-sea', 'off-sea', 'off-land', 'in-land'];

function gustAnswers({ inputs }: CheckItem): Record<string, unknown> {
  const exposure = EXPOSURES.find((known) => known === textIn(inputs, 'exposure'));
  if (exposure === undefined) throw new Error(`no gust factors for exposure "${textIn(inputs, 'exposure')}"`);
  const [gustS, meanS] = [numberIn(inputs, 'gustSeconds'), numberIn(inputs, 'meanSeconds')];
  return { factor: gustFactorRatio({ exposure, gustS, meanS }) };
}

function barbAnswers({ inputs }: CheckItem): Record<string, unknown> {
  const barb = windBarb(numberIn(inputs, 'kn'));
  return { pennants: barb.pennantCount, full: barb.fullCount, half: barb.halfCount, calm: barb.calm };
}

const seaAlphaTopics = (['4-1', '4-2', '4-3', '4-4', '4-5'] as const satisfies readonly SeaAlphaTable[]).flatMap(
  (table) =>
    [`alpha-hs-${table}`, `alpha-hs-${table}-interpolated`].map((topic) => ({
      topic,
      compute: ({ inputs }: CheckItem): Record<string, unknown> => {
        const limitM = numberIn(inputs, 'designHs');
        const alpha = standardSeaAlphaRatio({ limitM, periodH: numberIn(inputs, 'tpopH'), table });
        return { alpha, opWf: alpha === null ? null : alpha * limitM };
      },
    })),
);

function leewayAnswers({ inputs }: CheckItem): Record<string, unknown> {
  const row = leewayRow(textIn(inputs, 'object'));
  if (row === null) throw new Error(`the leeway list has no "${textIn(inputs, 'object')}"`);
  return { ...leeway(row, numberIn(inputs, 'windKn')) };
}

export const windTopics: readonly Topic[] = [
  { topic: 'units', compute: unitAnswers },
  { topic: 'true-wind-from-apparent', compute: trueWindAnswers },
  {
    topic: 'apparent-from-true',
    compute: ({ inputs }) => ({
      ...apparentWind({
        twsKn: numberIn(inputs, 'twsKn'),
        twaDeg: numberIn(inputs, 'twaDeg'),
        boatSpeedKn: numberIn(inputs, 'boatKn'),
      }),
    }),
  },
  { topic: 'wind-components', compute: componentAnswers },
  { topic: 'gust-factor', compute: gustAnswers },
  {
    topic: 'wind-profile',
    compute: ({ inputs }) => ({
      factor: windHeightRatio({
        heightM: numberIn(inputs, 'z'),
        referenceM: numberIn(inputs, 'zRef'),
        exponentRatio: numberIn(inputs, 'exponent'),
      }),
    }),
  },
  {
    topic: 'beaufort-from-knots',
    compute: ({ inputs }) => ({ force: beaufort(numberIn(inputs, 'kn')).forceNumber }),
  },
  { topic: 'beaufort-formula', compute: ({ inputs }) => ({ ms: beaufortSpeedMps(numberIn(inputs, 'force')) }) },
  { topic: 'wind-barb', compute: barbAnswers },
  ...seaAlphaTopics,
  {
    topic: 'alpha-wind-4-6',
    compute: ({ inputs }) => ({
      alpha: standardWindAlphaRatio({
        periodH: numberIn(inputs, 'tpopH'),
        belowHalfTenYearWind: inputs['windBelowHalfV10yr'] === true,
      }),
    }),
  },
  {
    topic: 'sigma-hs',
    compute: ({ inputs }) => ({
      sigmaM: sigmaSeaHeightM({ seaHeightM: numberIn(inputs, 'hs'), leadH: numberIn(inputs, 'leadH') }),
    }),
  },
  {
    topic: 'sigma-wind',
    compute: ({ inputs }) => {
      const sigmaKn = sigmaWindKn(numberIn(inputs, 'leadH'));
      return { sigmaKn, sigmaMs: mpsFromKn(sigmaKn) };
    },
  },
  { topic: 'sigma-time', compute: ({ inputs }) => ({ sigmaH: sigmaTimeH(numberIn(inputs, 'leadH')) }) },
  { topic: 'sigma-direction', compute: ({ inputs }) => ({ sigmaDeg: sigmaDirectionDeg(numberIn(inputs, 'leadH')) }) },
  { topic: 'leeway', compute: leewayAnswers },
];
