import {
  bareHandLimitMin,
  energyKcalPerMin,
  enduranceMin,
  frostbiteBand,
  gripRatio,
  heatLimitC,
  humidexBand,
  humidexC,
  humidexFromHumidityC,
  interruptionRisk,
  interruptionsPerMin,
  liftFrequencyRatio,
  liftingIndexRatio,
  liftLimitKg,
  METS,
  motionDoseMps15,
  restAfterWorkMin,
  restAllowanceRatio,
  restWithinMin,
  sicknessShare,
  warmUpSchedule,
  wbgtEstimateC,
  wbgtShadeC,
  wbgtSunC,
  workCapacityRatio,
  type Effort,
  type Grip,
  type LiftingSpell,
} from '../../lib/person/index.ts';
import type { Topic } from './check-item.ts';
import { numberIn, textIn } from './inputs.ts';

type Inputs = Readonly<Record<string, unknown>>;
type Answer = (inputs: Inputs) => Readonly<Record<string, unknown>>;

const efforts: readonly Effort[] = ['light', 'moderate', 'heavy'];
const grips: readonly Grip[] = ['good', 'fair', 'poor'];
const spells: readonly LiftingSpell[] = ['hour', 'two-hours', 'day'];

/** One of the known words under a key; throws for any other. */
function wordIn<Word extends string>(inputs: Inputs, key: string, words: readonly Word[]): Word {
  const text = textIn(inputs, key);
  const word = words.find((known) => known === text);
  if (word === undefined) throw new Error(`inputs.${key} is ${text}, one of ${words.join(', ')} was expected`);
  return word;
}

const warmUp: Answer = (inputs) => {
  const schedule = warmUpSchedule({
    airC: numberIn(inputs, 'airC'),
    deckWindKn: numberIn(inputs, 'windKmPerH') / 1.852,
    effort: wordIn(inputs, 'effort', efforts),
  });
  return { ...schedule };
};

const humidex: Answer = (inputs) => {
  const airC = numberIn(inputs, 'airC');
  return {
    humidex:
      'dewPointC' in inputs
        ? humidexC({ airC, dewPointC: numberIn(inputs, 'dewPointC') })
        : humidexFromHumidityC({ airC, humidityRatio: numberIn(inputs, 'humidityRatio') }),
  };
};

const balanceIn = (inputs: Inputs): { energyKcalPerMin: number; limitKcalPerMin: number; restKcalPerMin: number } => ({
  energyKcalPerMin: numberIn(inputs, 'work'),
  limitKcalPerMin: numberIn(inputs, 'limit'),
  restKcalPerMin: numberIn(inputs, 'rest'),
});

const lift: Answer = (inputs) => {
  const limitKg = liftLimitKg({
    reachM: numberIn(inputs, 'reachM'),
    heightM: numberIn(inputs, 'heightM'),
    wayM: numberIn(inputs, 'wayM'),
    twistDeg: numberIn(inputs, 'twistDeg'),
    frequencyRatio: numberIn(inputs, 'frequencyRatio'),
    gripRatio: numberIn(inputs, 'gripRatio'),
  });
  return { limit: limitKg, index: liftingIndexRatio({ loadKg: numberIn(inputs, 'loadKg'), limitKg }) };
};

const motionDose: Answer = (inputs) => {
  const doseMps15 = motionDoseMps15({
    verticalRmsMps2: numberIn(inputs, 'verticalRmsMps2'),
    exposureMin: numberIn(inputs, 'exposureMin'),
  });
  return { dose: doseMps15, sick: sicknessShare(doseMps15) };
};

const interruptions: Answer = (inputs) => {
  const perMin = interruptionsPerMin({
    alongDeckRmsMps2: numberIn(inputs, 'alongDeckRmsMps2'),
    periodS: numberIn(inputs, 'periodS'),
    direction: wordIn(inputs, 'direction', ['sideways', 'fore-and-aft']),
  });
  return { perMin, risk: interruptionRisk(perMin) };
};

const answers: Readonly<Record<string, Answer>> = {
  'frostbite-band': (inputs) => {
    const band = frostbiteBand(numberIn(inputs, 'chillC'));
    return { risk: band?.risk ?? null, freezesWithin: band?.freezesWithin ?? null };
  },
  'bare-hand-limit': (inputs) => ({ limit: bareHandLimitMin(numberIn(inputs, 'airC')) }),
  'warm-up-schedule': warmUp,
  humidex,
  'humidex-band': (inputs) => ({ discomfort: humidexBand(numberIn(inputs, 'humidex')) }),
  'wbgt-sun': (inputs) => ({
    wbgt: wbgtSunC({
      naturalWetBulbC: numberIn(inputs, 'naturalWetBulbC'),
      globeC: numberIn(inputs, 'globeC'),
      airC: numberIn(inputs, 'airC'),
    }),
  }),
  'wbgt-shade': (inputs) => ({
    wbgt: wbgtShadeC({
      naturalWetBulbC: numberIn(inputs, 'naturalWetBulbC'),
      globeC: numberIn(inputs, 'globeC'),
    }),
  }),
  'wbgt-estimate': (inputs) => ({
    wbgt: wbgtEstimateC({ airC: numberIn(inputs, 'airC'), humidityRatio: numberIn(inputs, 'humidityRatio') }),
  }),
  'heat-limit': (inputs) => ({
    used: heatLimitC({ metabolicW: numberIn(inputs, 'metabolicW'), acclimatised: true }),
    notUsed: heatLimitC({ metabolicW: numberIn(inputs, 'metabolicW'), acclimatised: false }),
  }),
  'work-capacity': (inputs) => ({
    capacity: workCapacityRatio({
      wbgtC: numberIn(inputs, 'wbgtC'),
      effort: wordIn(inputs, 'effort', efforts),
    }),
  }),
  met: (inputs) => ({ met: Object.entries(METS).find(([code]) => code === textIn(inputs, 'code'))?.[1].value }),
  'energy-of-work': (inputs) => ({
    energy: energyKcalPerMin({ met: numberIn(inputs, 'met'), bodyKg: numberIn(inputs, 'bodyKg') }),
  }),
  'rest-after-work': (inputs) => ({
    rest: restAfterWorkMin({ workMin: numberIn(inputs, 'workMin'), ...balanceIn(inputs) }),
  }),
  'rest-within': (inputs) => ({
    rest: restWithinMin({ totalMin: numberIn(inputs, 'totalMin'), ...balanceIn(inputs) }),
  }),
  endurance: (inputs) => ({ endurance: enduranceMin(numberIn(inputs, 'forceShare')) }),
  'rest-allowance': (inputs) => ({
    rest: restAllowanceRatio({ forceShare: numberIn(inputs, 'forceShare'), holdMin: numberIn(inputs, 'holdMin') }),
  }),
  'lift-limit': lift,
  'lift-frequency': (inputs) => ({
    ratio: liftFrequencyRatio({
      liftsPerMin: numberIn(inputs, 'liftsPerMin'),
      heightM: numberIn(inputs, 'heightM'),
      spell: wordIn(inputs, 'spell', spells),
    }),
  }),
  'lift-grip': (inputs) => ({
    ratio: gripRatio({ grip: wordIn(inputs, 'grip', grips), heightM: numberIn(inputs, 'heightM') }),
  }),
  interruptions,
  'motion-dose': motionDose,
};

/** Cold, heat, exertion, lifting and motion of the person room. */
export const climateTopics: readonly Topic[] = Object.entries(answers).map(([topic, answer]) => ({
  topic,
  compute: ({ inputs }) => answer(inputs),
}));
