import { limitText } from './amount-texts.ts';
import { codesOfUnits, type ShownUnits, unitsOfCodes } from './units/shown-units.ts';

/** The choice of day or night and of the units that figures are read in. */
export interface DisplayPage {
  readonly kind: 'display';
  readonly groups: readonly DisplayGroup[];
  /** What the choice does not change. */
  readonly hints: readonly string[];
  /** Where one came from, and goes to when it is saved. */
  readonly backHref: string;
}

export interface DisplayGroup {
  readonly name: DisplayField;
  readonly legend: string;
  readonly options: readonly DisplayOption[];
}

export type DisplayField = 'style' | 'wind' | 'height' | 'temperature';

export interface DisplayOption {
  readonly value: string;
  readonly text: string;
  /** The same amount in each unit. */
  readonly hint: string;
  readonly isChosen: boolean;
}

export interface DisplayShown {
  readonly style: 'day' | 'night';
  readonly units: ShownUnits;
  readonly backHref: string;
}

export const displayPage = ({ style, units, backHref }: DisplayShown): DisplayPage => ({
  kind: 'display',
  groups: [styleGroup(style), ...unitGroups(units)],
  hints: [
    'Only what is read changes. Forms, files, messages, deck sheets and the plan itself stay in kn, m and °C.',
    'A limit is rounded to the strict side, and room to a limit is never shown larger than it is.',
    'Beaufort always has its knots beside it: a force is a class, and hides how much room is left in it. The scale is made for the mean wind at 10 m; beside deck wind and gusts it is the force of as many knots.',
    'Miles, boat speed and current in kn, rain in mm/h, and lengths of sail, cloth and rope in m stay as they are.',
  ],
  backHref,
});

const styleGroup = (style: 'day' | 'night'): DisplayGroup => ({
  name: 'style',
  legend: 'Light',
  options: [
    { value: 'day', text: 'Day', hint: 'dark on paper', isChosen: style === 'day' },
    { value: 'night', text: 'Night', hint: 'dim red on black, for eyes used to the dark', isChosen: style === 'night' },
  ],
});

const EXAMPLE = { windKn: 18, heightM: 2, temperatureC: 8 } as const;

const UNIT_GROUPS = [
  {
    name: 'wind',
    legend: 'Wind',
    choices: [
      ['kn', 'Knots'],
      ['mps', 'Metres a second'],
      ['bft', 'Beaufort, with knots'],
    ],
    example: [EXAMPLE.windKn, 'kn'],
  },
  {
    name: 'height',
    legend: 'Height of the sea',
    choices: [
      ['m', 'Metres'],
      ['ft', 'Feet'],
    ],
    example: [EXAMPLE.heightM, 'm'],
  },
  {
    name: 'temperature',
    legend: 'Temperature',
    choices: [
      ['c', 'Degrees Celsius'],
      ['f', 'Degrees Fahrenheit'],
    ],
    example: [EXAMPLE.temperatureC, '°C'],
  },
] as const;

function unitGroups(units: ShownUnits): DisplayGroup[] {
  const codes = codesOfUnits(units);
  return UNIT_GROUPS.map(({ name, legend, choices, example: [value, unit] }) => ({
    name,
    legend,
    options: choices.map(([code, text]) => {
      const shown = unitsOfCodes({ ...codes, [name]: code }) ?? units;
      return { value: code, text, hint: limitText(value, unit, shown), isChosen: codes[name] === code };
    }),
  }));
}
