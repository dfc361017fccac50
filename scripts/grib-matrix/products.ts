/** Products of edition 2 as ecCodes' keys: a member, a mean, intervals. */

interface Product {
  readonly productTemplate: number;
  readonly header: readonly string[];
}

const MEMBER = ['typeOfEnsembleForecast=3', 'perturbationNumber=7', 'numberOfForecastsInEnsemble=31'];
const GUST_3_TO_6_H = [
  'forecastTime=3',
  'typeOfStatisticalProcessing=2',
  'lengthOfTimeRange=3',
  'parameterCategory=2',
  'parameterNumber=22',
];
const RAIN_0_TO_6_H = ['startStep=0', 'endStep=6', 'stepType="accum"', 'parameterCategory=1', 'parameterNumber=8'];

const product = (productTemplate: number, header: readonly string[]): Product => ({
  productTemplate,
  header: [`productDefinitionTemplateNumber=${productTemplate}`, ...header],
});

export const PRODUCTS: readonly Product[] = [
  product(0, ['forecastTime=12']),
  product(1, MEMBER),
  product(2, ['derivedForecast=0', 'numberOfForecastsInEnsemble=31']),
  product(2, ['derivedForecast=4', 'numberOfForecastsInEnsemble=31']),
  product(8, GUST_3_TO_6_H),
  product(8, RAIN_0_TO_6_H),
  product(11, [...MEMBER, ...RAIN_0_TO_6_H]),
  product(12, ['derivedForecast=0', 'numberOfForecastsInEnsemble=31', ...RAIN_0_TO_6_H]),
];
