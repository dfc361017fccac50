import type { Constant } from './constant.ts';

const OURS = 'default without a published coefficient; form after Daanen 2009, Industrial Health 47:262-270; edit it';
const CHOICE = 'engineering choice, no source';

/** Settings of the time factors; all may be edited. */
export const TIME_FACTORS = {
  /** Slope per °C of wind chill below 10 °C, after an hour. */
  coldGross: { value: 0.01, unit: '1/°C', provenance: OURS },
  coldMedium: { value: 0.015, unit: '1/°C', provenance: OURS },
  coldFine: { value: 0.025, unit: '1/°C', provenance: OURS },
  /** Wet hands or spray count as this much colder. */
  wetColder: { value: 5, unit: '°C', provenance: OURS },
  glovesThin: { value: 1.15, unit: 'ratio', provenance: OURS },
  glovesThick: { value: 1.35, unit: 'ratio', provenance: OURS },
  /** Fine hand work is not offered below this wind chill, nor wet below this air temperature. */
  fineLeastWindChill: { value: -10, unit: '°C', provenance: CHOICE },
  fineLeastAirWet: { value: 5, unit: '°C', provenance: CHOICE },
  /** Time factor at a mean rating up to 5, up to 6, below 8; none at 8 and above. */
  tiredKss5: { value: 1, unit: 'ratio', provenance: CHOICE },
  tiredKss6: { value: 1.15, unit: 'ratio', provenance: CHOICE },
  tiredKss8: { value: 1.35, unit: 'ratio', provenance: CHOICE },
  /** All factors together; above it the work is refused. */
  productCap: { value: 3, unit: 'ratio', provenance: CHOICE },
} as const satisfies Readonly<Record<string, Constant>>;
