/**
 * The closed list of unit suffixes. A number in lib ends in one of them, or stands in one of the lists below.
 *
 * `Code` is a figure of a code table, `Number` an ordinal or a number given by a standard, `Slot` the index of a slot of
 * the grid at hand, `Slots` a duration in its slots.
 */
export const unitSuffixes = [
  'Kn',
  'Mps',
  'Deg',
  'DegTrue',
  'FromDegTrue',
  'TowardDegTrue',
  'DegMag',
  'Rad',
  'M',
  'Mm',
  'Nm',
  'Min',
  'H',
  'S',
  'Ms',
  'EpochMs',
  'Hpa',
  'Pa',
  'C',
  'K',
  'Kg',
  'N',
  'MmPerH',
  'JPerKg',
  'Ratio',
  'Probability',
  'Share',
  'Count',
  'Index',
  'Weight',
  'Sd',
  'Points',
  'Octet',
  'Octets',
  'Bits',
  'Code',
  'Number',
  'Slot',
  'Slots',
] as const;

/** Numbers without a unit, or whose unit the word itself says. */
export const plainNames: ReadonlySet<string> = new Set([
  // Position: signed degrees, north and east positive.
  'lat',
  'lon',
  // Components of wind and current toward east and north, in the unit of the speed beside them.
  'u',
  'v',
  'speed',
  // Levels of one limit: the property that holds them carries the unit.
  'ideal',
  'caution',
  'noGo',
  // Seed of a generator.
  'seed',
  // Arithmetic that takes a number of any unit.
  'value',
  // Year of publication.
  'year',
]);

/** Keys of the published plan and passage JSON, kept as published. */
export const publishedNames: ReadonlySet<string> = new Set([
  'slatch',
  'members',
  'gap',
  'labels',
  'p10',
  'p50',
  'p90',
  'kssStart',
  'kssEnd',
  'priority',
  'onBoard',
  'keep',
  'observed',
  'required',
  'margin',
]);

/** Names a standard gives, in the one room that speaks its language. */
export const namesOfRoom: Readonly<Record<string, ReadonlySet<string>>> = {
  // WMO No. 306, Manual on Codes, FM 92: the words of its sections and templates.
  grib: new Set([
    'binaryScaleFactor',
    'bitsPerValue',
    'category',
    'centre',
    'coded',
    'day',
    'decimalScaleFactor',
    'discipline',
    'edition',
    'factor',
    'flag',
    'hour',
    'minute',
    'missingManagement',
    'month',
    'ni',
    'nj',
    'productTemplate',
    'reference',
    'referenceValue',
    'scanningMode',
    'second',
    'step',
    'subcentre',
    'tableVersion',
    'typeOfProcess',
    'year',
  ]),
  // A value in the unit of the file, before it becomes one of ours.
  forecast: new Set(['coded']),
};
