/** A passage as a user writes it, to be spoiled by the tests; boat, place and names are invented. */
export const sample = () => ({
  slatch: 1,
  name: 'Ridge before the front',
  clock: { fixedUtc: '2026-05-27T20:12Z' },
  start: { timeUtc: '2026-05-27T18:00Z', lat: -36.3, lon: 178.1, sailState: 'deep-reef' },
  track: [
    { lat: -36.3, lon: 178.1 },
    { lat: -36.7, lon: -178.5, leg: 'rhumb' },
    { lat: -34.2, lon: -165.5, leg: 'great-circle', name: 'turn' },
  ],
  boat: {
    name: 'Lanternwing',
    instrumentHeightM: 21,
    speedTables: {
      'full-main': [
        { twaDeg: 52, twsKn: 8, boatSpeedKn: 5.7 },
        { twaDeg: 150, twsKn: 8, boatSpeedKn: 4.3 },
      ],
    },
    handlings: [{ id: 'run-off', twaDeg: 165 }],
  },
  watchkeeper: {
    sleeps: [
      { startUtc: '2026-05-26T10:00Z', endUtc: '2026-05-26T15:00Z' },
      { startUtc: '2026-05-27T10:30Z', endUtc: '2026-05-27T14:00Z' },
    ],
    wantedSleepHPer24H: 6,
    usualSleepLocal: '22:00',
  },
  jobs: [
    { id: 'drop', from: 'drop-main', priority: 9, handlings: ['run-off', 'fore-reach'] },
    {
      id: 'stitch',
      from: 'stitch-tear',
      after: ['drop'],
      priority: 9,
      lengthM: 0.5,
      rows: 2,
      cloth: 'woven-heavy',
      session: { longestMin: 60 },
    },
    { id: 'hoist', from: 'hoist-main', after: ['stitch'] },
  ],
  locker: [
    { item: 'waxed twine', unit: 'm', onBoard: 60, keep: 15 },
    { item: 'needles', unit: 'pieces', onBoard: 6, keep: 2 },
  ],
  forecasts: ['ridge.grib2'],
  settings: { slotMin: 15, traffic: 'coast' },
});

export type Sample = ReturnType<typeof sample>;
