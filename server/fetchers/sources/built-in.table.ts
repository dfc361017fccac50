/**
 * Sources that come with Slatch: open public model data only, whose terms allow this use. None of these addresses was
 * tried against the live server from here; `evidence` says where each was read, `slatch forecast get --estimate` tries it.
 *
 * NOAA: works of the US government, in the public domain; the open data programme asks for attribution. ECMWF: Creative
 * Commons Attribution 4.0, wording of the attribution as its open data page asks for. DWD: ordinance GeoNutzV, the
 * source must be named.
 */
import type { ForecastSource } from './source.ts';

const NOAA = {
  provider: 'US National Oceanic and Atmospheric Administration (NOAA/NCEP)',
  licence: 'public domain (US government); use without restriction',
  attribution: 'Data: NOAA/NCEP, by the NOAA Open Data Dissemination programme.',
} as const;
const NOAA_ADDRESSES = 'address and index as public programs use them in 2024 to 2026';

const ECMWF = {
  provider: 'European Centre for Medium-Range Weather Forecasts (ECMWF)',
  licence: 'Creative Commons Attribution 4.0 International (CC BY 4.0), https://creativecommons.org/licenses/by/4.0/',
  attribution:
    'Copyright © European Centre for Medium-Range Weather Forecasts (ECMWF). Source www.ecmwf.int. Licence CC BY 4.0. ' +
    'ECMWF does not accept any liability whatsoever for any error or omission in the data, their availability, or for any loss or damage arising from their use.',
  evidence:
    'naming of files from ECMWF\'s page "Find out how to access ECMWF real-time open data" (May 2026); steps, parameters and delay from memory',
} as const;
const ECMWF_ROOT = 'https://data.ecmwf.int/forecasts/{yyyy}{mm}{dd}/{hh}z/ifs/0p25';
const ecmwfFile = (stream: string, type: string): { url: string; indexUrl: string; index: 'json-lines' } => {
  const file = `${ECMWF_ROOT}/${stream}/{yyyy}{mm}{dd}{hh}0000-{f}h-${stream}-${type}`;
  return { url: `${file}.grib2`, indexUrl: `${file}.index`, index: 'json-lines' };
};
const ECMWF_STEPS = [
  { fromH: 0, toH: 144, everyH: 3 },
  { fromH: 150, toH: 360, everyH: 6, cyclesH: [0, 12] },
];
const ECMWF_SURFACE = {
  wind: [
    { param: '10u', levtype: 'sfc' },
    { param: '10v', levtype: 'sfc' },
  ],
  gust: [{ param: '10fg', levtype: 'sfc' }],
  pressure: [{ param: 'msl', levtype: 'sfc' }],
  rain: [{ param: 'tp', levtype: 'sfc' }],
  air: [{ param: '2t', levtype: 'sfc' }],
  humidity: [{ param: '2d', levtype: 'sfc' }],
};
const ECMWF_SEA = {
  seaHeight: [{ param: 'swh', levtype: 'sfc' }],
  wavePeriod: [{ param: 'pp1d', levtype: 'sfc' }],
  waveDirection: [{ param: 'mwd', levtype: 'sfc' }],
};

const DWD = {
  provider: 'Deutscher Wetterdienst (DWD)',
  licence: 'DWD open data under the ordinance GeoNutzV: any use, the source must be named',
  attribution: 'Source: Deutscher Wetterdienst.',
} as const;
const DWD_SEA = {
  seaHeight: [{ param: 'swh' }],
  wavePeriod: [{ param: 'tm10' }],
  waveDirection: [{ param: 'mwd' }],
};

const GFS_SURFACE = {
  wind: [
    { parameter: 'UGRD', level: '10 m above ground' },
    { parameter: 'VGRD', level: '10 m above ground' },
  ],
  gust: [{ parameter: 'GUST', level: 'surface' }],
  pressure: [{ parameter: 'PRMSL', level: 'mean sea level' }],
  rain: [{ parameter: 'APCP', level: 'surface' }],
  air: [{ parameter: 'TMP', level: '2 m above ground' }],
  humidity: [{ parameter: 'RH', level: '2 m above ground' }],
  cape: [{ parameter: 'CAPE', level: 'surface' }],
  visibility: [{ parameter: 'VIS', level: 'surface' }],
  cloud: [{ parameter: 'TCDC', level: 'entire atmosphere' }],
};
const GFS_SEA = {
  seaHeight: [{ parameter: 'HTSGW', level: 'surface' }],
  wavePeriod: [{ parameter: 'PERPW', level: 'surface' }],
  waveDirection: [{ parameter: 'DIRPW', level: 'surface' }],
};
const GFS_STEPS = [
  { fromH: 0, toH: 120, everyH: 1 },
  { fromH: 123, toH: 384, everyH: 3 },
];
const SIX_HOURLY = [0, 6, 12, 18];
const lines = (url: string): { url: string; indexUrl: string; index: 'lines' } => ({
  url,
  indexUrl: `${url}.idx`,
  index: 'lines',
});
const GFS_ROOT = 'https://noaa-gfs-bdp-pds.s3.amazonaws.com/gfs.{yyyy}{mm}{dd}/{hh}';
const GEFS_ROOT = 'https://noaa-gefs-pds.s3.amazonaws.com/gefs.{yyyy}{mm}{dd}/{hh}';
const GEFS_MEMBERS = { control: 'c00', perturbed: 'p*', count: 30 };

export const BUILT_IN_SOURCES: readonly ForecastSource[] = [
  {
    id: 'gfs',
    name: 'GFS, global, 0.25°',
    ...NOAA,
    evidence: `${NOAA_ADDRESSES}; delay from memory`,
    ...lines(`${GFS_ROOT}/atmos/gfs.t{hh}z.pgrb2.0p25.f{fff}`),
    cyclesH: SIX_HOURLY,
    delayMin: 310,
    steps: GFS_STEPS,
    quantities: GFS_SURFACE,
    messageOctets: 750_000,
  },
  {
    id: 'gfs-wave',
    name: 'GFS waves, global, 0.25°',
    ...NOAA,
    evidence: `${NOAA_ADDRESSES}; delay from memory`,
    ...lines(`${GFS_ROOT}/wave/gridded/gfswave.t{hh}z.global.0p25.f{fff}.grib2`),
    cyclesH: SIX_HOURLY,
    delayMin: 330,
    steps: GFS_STEPS,
    quantities: GFS_SEA,
    messageOctets: 420_000,
  },
  {
    id: 'gefs',
    name: 'GEFS, global ensemble of 31, 0.25°',
    ...NOAA,
    evidence: `${NOAA_ADDRESSES}; steps, list of parameters and delay from memory`,
    ...lines(`${GEFS_ROOT}/atmos/pgrb2sp25/ge{member}.t{hh}z.pgrb2s.0p25.f{fff}`),
    cyclesH: SIX_HOURLY,
    delayMin: 390,
    steps: [{ fromH: 0, toH: 240, everyH: 3 }],
    members: GEFS_MEMBERS,
    quantities: GFS_SURFACE,
    messageOctets: 650_000,
  },
  {
    id: 'gefs-wave',
    name: 'GEFS waves, global ensemble of 31, 0.25°',
    ...NOAA,
    evidence: `${NOAA_ADDRESSES}; steps and delay from memory`,
    ...lines(`${GEFS_ROOT}/wave/gridded/gefs.wave.t{hh}z.{member}.global.0p25.f{fff}.grib2`),
    cyclesH: SIX_HOURLY,
    delayMin: 420,
    steps: [
      { fromH: 0, toH: 240, everyH: 3 },
      { fromH: 246, toH: 384, everyH: 6 },
    ],
    members: GEFS_MEMBERS,
    quantities: GFS_SEA,
    messageOctets: 420_000,
  },
  {
    id: 'ecmwf',
    name: 'IFS, global, 0.25°',
    ...ECMWF,
    ...ecmwfFile('oper', 'fc'),
    cyclesH: SIX_HOURLY,
    delayMin: 540,
    steps: ECMWF_STEPS,
    quantities: ECMWF_SURFACE,
    messageOctets: 700_000,
  },
  {
    id: 'ecmwf-wave',
    name: 'IFS waves, global, 0.25°',
    ...ECMWF,
    ...ecmwfFile('wave', 'fc'),
    cyclesH: SIX_HOURLY,
    delayMin: 540,
    steps: ECMWF_STEPS,
    quantities: ECMWF_SEA,
    messageOctets: 600_000,
  },
  {
    id: 'ecmwf-ens',
    name: 'IFS ensemble of 50, global, 0.25°',
    ...ECMWF,
    ...ecmwfFile('enfo', 'ef'),
    cyclesH: SIX_HOURLY,
    delayMin: 570,
    steps: ECMWF_STEPS,
    members: { control: null, perturbed: '*', count: 50, memberKey: 'number' },
    quantities: ECMWF_SURFACE,
    messageOctets: 650_000,
  },
  {
    id: 'ecmwf-ens-wave',
    name: 'IFS waves, ensemble of 50, global, 0.25°',
    ...ECMWF,
    ...ecmwfFile('waef', 'ef'),
    cyclesH: SIX_HOURLY,
    delayMin: 570,
    steps: ECMWF_STEPS,
    members: { control: null, perturbed: '*', count: 50, memberKey: 'number' },
    quantities: ECMWF_SEA,
    messageOctets: 600_000,
  },
  {
    id: 'gwam',
    name: 'GWAM waves, global, 0.25°',
    ...DWD,
    evidence: 'address, cycles and steps as public descriptions checked in July 2026 have them; delay from memory',
    url: 'https://opendata.dwd.de/weather/maritime/wave_models/gwam/grib/{hh}/{param}/GWAM_{PARAM}_{yyyy}{mm}{dd}{hh}_{fff}.grib2.bz2',
    cyclesH: [0, 12],
    delayMin: 300,
    steps: [{ fromH: 0, toH: 174, everyH: 3 }],
    quantities: DWD_SEA,
    messageOctets: 500_000,
  },
  {
    id: 'ewam',
    name: 'EWAM waves, European seas, 0.10° × 0.05°',
    ...DWD,
    evidence:
      'address, cycles, steps and sizes as a public description checked in July 2026 has them; delay from memory',
    url: 'https://opendata.dwd.de/weather/maritime/wave_models/ewam/grib/{hh}/{param}/EWAM_{PARAM}_{yyyy}{mm}{dd}{hh}_{fff}.grib2.bz2',
    cyclesH: [0, 12],
    delayMin: 300,
    steps: [{ fromH: 0, toH: 78, everyH: 1 }],
    quantities: DWD_SEA,
    messageOctets: 80_000,
  },
];
