import { METS } from './exertion.table.ts';
import { energyKcalPerMin, restAfterWorkMin } from './exertion.ts';

/** Weight of someone nobody has asked [kg]; engineering choice, no source. */
export const DEFAULT_BODY_KG = 80;

/** What heavy work on deck costs: moving things of 34 kg and more; which activity stands for it is our choice. */
const HEAVY_MET = METS['11490'].value;

/**
 * Rest [min] before more heavy work, after some minutes of it, so that both together cost no more than can be kept up.
 *
 * @see sources.MURRELL_1965
 */
export const restAfterHeavyMin = ({ heavyMin, bodyKg }: { heavyMin: number; bodyKg: number }): number =>
  restAfterWorkMin({ workMin: heavyMin, energyKcalPerMin: energyKcalPerMin({ met: HEAVY_MET, bodyKg }) });
