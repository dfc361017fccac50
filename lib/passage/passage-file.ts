/** The shape of a passage file (JSON, `"slatch": 1`). What refers to something else is checked after the shape. */
import { z } from 'zod';
import { jobFile } from '../jobs/index.ts';
import { PACE_RATIO_RANGE } from '../person/index.ts';
import { damageCaseFile } from '../sail/index.ts';
import { cuttingFile } from '../stock/index.ts';
import { LOCKER_KINDS, LOCKER_LIMITS } from '../stock/index.ts';

/** No control characters: a passage may come by mail, and what it says is printed on terminals. */
const text = z
  .string()
  .min(1)
  .max(400)
  .regex(/^\P{Cc}*$/u, 'text without control characters');
const utc = z.string().describe('ISO 8601 instant with Z or an offset, such as 2026-05-27T20:12Z');
const lat = z.number().min(-90).max(90);
const lon = z.number().min(-180).max(180);
const twaDeg = z.number().min(0).max(180);
const speedKn = z.number().min(0).max(60);
const levelKn = z.number().min(0).max(200);

export const startFile = z.strictObject({
  timeUtc: utc,
  lat,
  lon,
  sailState: z.string().exactOptional().describe('id of a sail state; default full-main'),
});

const waypointFile = z.strictObject({
  lat,
  lon,
  name: text.exactOptional(),
  leg: z.enum(['rhumb', 'great-circle']).exactOptional().describe('leg that ends here; default rhumb'),
});

export const trackFile = z.array(waypointFile).min(2).max(2000);
export const gpxTrackFile = z.strictObject({ gpx: text.describe('name of a GPX 1.1 file') });

export const clockFile = z.strictObject({ fixedUtc: utc });

const trueWindLevels = z.strictObject({ ideal: levelKn, caution: levelKn, noGo: levelKn });
const seaLevel = z.number().min(0).max(30);
const seaLevels = z.strictObject({ ideal: seaLevel, caution: seaLevel, noGo: seaLevel });

const handlingFile = z.strictObject({
  id: text,
  name: text.exactOptional(),
  sailStates: z.array(z.string()).max(20).exactOptional().describe('sail states in which it exists'),
  heading: z.literal('course').exactOptional().describe('along the track; instead of twaDeg'),
  twaDeg: twaDeg.exactOptional().describe('angle to the true wind'),
  speedRatio: z.number().min(0).max(2).exactOptional().describe("share of the speed table's speed"),
  speedLeastKn: speedKn.exactOptional(),
  speedMostKn: speedKn.exactOptional(),
  driftRatio: z.number().min(0).max(0.5).exactOptional().describe('drift to leeward, share of the 10 m wind'),
  settleMin: z.number().min(0).max(240).exactOptional().describe('minutes to settle the boat before the work begins'),
  limits: z
    .strictObject({ trueWindKn: trueWindLevels.exactOptional(), seaHeightM: seaLevels.exactOptional() })
    .exactOptional()
    .describe('true wind at 10 m; they bind together with those of the step'),
});

const sailStateFile = z.strictObject({
  id: text,
  name: text.exactOptional(),
  mainsail: z.enum(['full', 'reefed', 'none']).exactOptional(),
  headsail: z.boolean().exactOptional(),
  areaRatio: z.number().positive().max(1).exactOptional().describe('sail area, share of full sail'),
  closestTwaDeg: twaDeg.exactOptional(),
});

export const boatFile = z.strictObject({
  name: text.exactOptional(),
  instrumentHeightM: z.number().min(0.5).max(60).exactOptional(),
  sailStates: z.array(sailStateFile).max(20).exactOptional().describe('own ones, or figures laid over the usual four'),
  speedTables: z
    .record(z.string(), z.array(z.strictObject({ twaDeg, twsKn: levelKn, boatSpeedKn: speedKn })).max(5000))
    .describe('by sail state id; at least one'),
  handlings: z.array(handlingFile).max(40).exactOptional().describe('own ones, or figures laid over the usual ones'),
});

const slope = z.number().min(0).max(0.2);
const factorRatio = z.number().min(1).max(5);
const timeFactorsFile = z
  .strictObject({
    coldGrossPerC: slope.exactOptional().describe('slower per °C of wind chill below 10, after an hour: hauling'),
    coldMediumPerC: slope.exactOptional().describe('bolts, shackles'),
    coldFinePerC: slope.exactOptional().describe('needle, splicing'),
    wetColderC: z.number().min(0).max(20).exactOptional().describe('wet hands feel so much colder'),
    glovesThinRatio: factorRatio.exactOptional(),
    glovesThickRatio: factorRatio.exactOptional(),
    assumedHumidityRatio: z.number().min(0.05).max(1).exactOptional().describe('where the forecast holds no humidity'),
    wbgtAdjustC: z.number().min(-15).max(15).exactOptional().describe('below 0: awning and breeze'),
    tiredToKss6Ratio: factorRatio.exactOptional().describe('sleepiness above 5, to 6'),
    tiredToKss8Ratio: factorRatio.exactOptional().describe('sleepiness above 6, below 8'),
    productCapRatio: z.number().min(1).max(10).exactOptional().describe('slowed more than so many times: refused'),
  })
  .describe('coefficients of cold, heat and tiredness; the dark factor stands with each step');

const workPaceFile = z.strictObject({
  ratio: z.number().min(PACE_RATIO_RANGE.leastRatio).max(PACE_RATIO_RANGE.mostRatio).describe('times as long as given'),
  sessionCount: z.int().min(0).max(10_000).describe('pieces of work it was learned from'),
});
const paceByWorkFile = z
  .strictObject({
    hauling: workPaceFile.exactOptional().describe('outside with the whole hand: halyards, sails, lashings'),
    fitting: workPaceFile.exactOptional().describe('outside with the fingers: bolts, shackles, splices, battens'),
    sewing: workPaceFile.exactOptional().describe('seams, and patches and tape outside'),
    aloft: workPaceFile.exactOptional().describe('up the mast and over the side'),
    below: workPaceFile.exactOptional().describe('engine, steering gear and bench'),
  })
  .describe('own pace by kind of work, in place of paceRatio; the log learns it');

export const watchkeeperFile = z.strictObject({
  sleeps: z
    .array(z.strictObject({ startUtc: utc, endUtc: utc }))
    .max(200)
    .exactOptional()
    .describe('time in the bunk of at least the last 72 h'),
  wantedSleepHPer24H: z.number().min(0).max(16).exactOptional(),
  usualSleepLocal: z
    .string()
    .regex(/^([01]\d|2[0-3]):[0-5]\d$/)
    .exactOptional()
    .describe("a time of day on the ship's clock, such as 22:00"),
  paceRatio: z
    .number()
    .min(0.3)
    .max(3)
    .exactOptional()
    .describe('1 works at the times given; 1.2 takes a fifth longer'),
  paceByWork: paceByWorkFile.exactOptional(),
  bodyClockLagMin: z.number().min(-720).max(720).exactOptional().describe('body clock behind local solar time'),
  gloves: z.enum(['none', 'thin', 'thick']).exactOptional(),
  gates: z
    .strictObject({
      hardLeastAlertnessPoints: z.number().min(0).max(21).exactOptional(),
      deckLeastAlertnessPoints: z.number().min(0).max(21).exactOptional(),
      hardMostLapses: z.number().min(0).max(24).exactOptional(),
      deckMostLapses: z.number().min(0).max(24).exactOptional(),
      hardLongestAwakeH: z.number().min(1).max(48).exactOptional(),
    })
    .exactOptional()
    .describe('lines below which a step is not planned'),
  timeFactors: timeFactorsFile.exactOptional(),
  leastSleepHPer24H: z.number().min(0).max(12).exactOptional().describe('less in any 24 h sounds the alarm'),
  bodyKg: z.number().min(30).max(250).exactOptional().describe('for energy, and rest after heavy work'),
});

const lockerAmount = z.number().min(0).max(LOCKER_LIMITS.most);

export const lockerLineFile = z.strictObject({
  item: text,
  unit: text,
  onBoard: lockerAmount.describe('on board now: what finished steps have used is off already'),
  keep: lockerAmount.exactOptional().describe('reserve never to go below; default 0'),
  kind: z.enum(LOCKER_KINDS).exactOptional().describe('material (default) is used up, a tool comes back, a bar is cut'),
  place: text.exactOptional().describe('where it is stowed'),
  lengthMm: z.number().positive().max(LOCKER_LIMITS.longestBarMm).exactOptional().describe('of one bar'),
  diameterMm: z.number().positive().max(LOCKER_LIMITS.thickestBarMm).exactOptional().describe('of one bar'),
  readyUtc: utc.exactOptional().describe('not to be used before this instant'),
});

export const lockerFile = z.array(lockerLineFile).max(LOCKER_LIMITS.mostLineCount);

export const settingsFile = z.strictObject({
  wantedProbability: z.number().min(0).max(1).exactOptional(),
  probabilityTolerancePoints: z.number().min(0).max(50).exactOptional(),
  slotMin: z
    .int()
    .min(1)
    .max(60)
    .refine((slotMin) => 60 % slotMin === 0, { error: 'minutes that divide an hour: 5, 6, 10, 12, 15, 20, 30 or 60' })
    .exactOptional(),
  horizonH: z.number().positive().max(240).nullable().exactOptional(),
  seed: z.int().min(0).max(2_147_483_647).exactOptional(),
  errorModel: z.enum(['default', 'none']).exactOptional(),
  contingencyShare: z.number().min(0).max(5).exactOptional(),
  contingencyLeastMin: z.number().min(0).max(600).exactOptional(),
  planningLimitRatio: z.number().min(0.5).max(1).exactOptional(),
  keepPlanUnlessBetterPoints: z.number().min(0).max(100).exactOptional(),
  spreadInflationRatio: z.number().min(0.1).max(5).exactOptional(),
  gustRatio: z.number().min(1).max(3).exactOptional(),
  deckHeightM: z.number().min(0.5).max(30).exactOptional(),
  traffic: z.enum(['ocean', 'lane', 'coast', 'ice']).exactOptional(),
  longestSleepMin: z.number().min(10).max(600).exactOptional(),
  eyeHeightM: z.number().min(0.5).max(30).exactOptional().describe('eye above the water, for the look-out interval'),
  otherShipKn: z.number().min(5).max(50).exactOptional().describe('speed of a ship met head-on'),
  lookoutLongestMin: z.number().min(1).max(60).exactOptional().describe('never longer between two looks round'),
  shipTimeOffsetMin: z.int().min(-720).max(840).exactOptional(),
  steadyingWindRule: z.boolean().exactOptional(),
  sleepEfficiencyRatio: z
    .number()
    .min(0.3)
    .max(1)
    .exactOptional()
    .describe('share of the time in the bunk that is sleep'),
});

export const forecastsFile = z.array(text).max(50);
export const forbiddenFile = z
  .array(
    z.strictObject({
      fromUtc: utc,
      toUtc: utc,
      job: z.string().exactOptional().describe('id of the one job meant; left out: every job'),
    }),
  )
  .max(200);
const jobsFile = z.array(jobFile).max(60);
export const sailsFile = z.array(damageCaseFile).max(8);

/** The whole file. */
export const passageFile = z.strictObject({
  slatch: z.literal(1),
  name: text,
  clock: z.union([z.literal('live'), clockFile]).exactOptional(),
  start: startFile,
  track: z.union([trackFile, gpxTrackFile]),
  boat: boatFile,
  watchkeeper: watchkeeperFile.exactOptional(),
  jobs: jobsFile.exactOptional(),
  locker: lockerFile.exactOptional(),
  cutting: cuttingFile.exactOptional().describe('pieces to cut from the bars of the locker, as slatch cut reads them'),
  sails: sailsFile.exactOptional().describe('sails, and what is torn or broken on them, as slatch damage reads it'),
  forbidden: forbiddenFile.exactOptional().describe('hours in which no job, or not this one, is worked'),
  forecasts: forecastsFile.exactOptional(),
  settings: settingsFile.exactOptional(),
});

export type PassageFile = z.infer<typeof passageFile>;
