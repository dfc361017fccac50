export interface TriedScript {
  /** Name in package.json, or a file. */
  readonly script: string;
  /** Words after it that make it end soon; `OUT` is a folder of its own. */
  readonly args: readonly string[];
  /** Takes more than some seconds even so: tried in the long run only. */
  readonly isSlow?: boolean;
  /** Exit codes that are right here, where it is not 0 alone. */
  readonly codes?: readonly number[];
}

const ONE_FILE = 'tests/golden/grib/files/single_gridpoint.grib1';

/** Every script that the documents tell, asked for little. */
export const SCRIPTS: readonly TriedScript[] = [
  { script: 'compare-grib', args: [ONE_FILE] },
  { script: 'grib-matrix', args: [], isSlow: true },
  { script: 'mutate-grib', args: ['--count', '20'], isSlow: true },
  { script: 'mutate-text', args: ['--format', 'gpx,sail', '--count', '40', '--workers', '1'], isSlow: true },
  { script: 'soak-forecasts', args: ['--rounds', '2'] },
  { script: 'kill-store', args: ['--kills', '1', '--cuts', '0'], isSlow: true },
  { script: 'scripts/make-grib-kinds.ts', args: ['--out', 'OUT'], isSlow: true },
  { script: 'bench', args: ['--quick', '--parts', 'messages', '--json', 'OUT/bench.json'], isSlow: true },
  { script: 'compare-highs', args: ['--limit', '1', '--only', 'none of them'] },
  { script: 'supply-chain', args: ['--no-audit'] },
  { script: 'sbom', args: [] },
  { script: 'readme-picture', args: ['--out', 'OUT/plan-page.png'], isSlow: true },
  { script: 'screenshots', args: ['--out', 'OUT/pictures', '--only', '/display'], isSlow: true },
  { script: 'study-joint', args: ['--passages', '1', '--skip-demo'], isSlow: true },
  // Of so few trials one may well come out wrong, which it says by its code.
  { script: 'study-match', args: ['--trials', '2', '--draws', '50'], isSlow: true, codes: [0, 1] },
  { script: 'study-digest', args: ['--passages', '1', '--members', '3', '--hours', '24'], isSlow: true },
  {
    script: 'study-calibration',
    args: ['--passages', '1', '--truths', '5', '--draws', '50'],
    isSlow: true,
    codes: [0, 1],
  },
  { script: 'digest-ratio', args: [], isSlow: true },
  { script: 'bench:plan', args: ['--parts', 'main', '--seeds', '1', '--highs', '0', '--budget', '100'], isSlow: true },
  { script: 'bench:plan-many', args: ['--passages', '2'], isSlow: true },
  { script: 'global-forecast', args: ['--members', '1'], isSlow: true },
  { script: 'bench:alertness', args: [], isSlow: true },
  { script: 'bench:cut', args: ['--instances', '2', '--steps', '1000'], isSlow: true },
  { script: 'bench:windows', args: ['--scenarios', '3', '--hours', '24', '--lags', '3'], isSlow: true },
  { script: 'bench:grib', args: ['--only', 'IEEE'], isSlow: true },
  { script: 'bench:pages', args: ['--sizes', 'demo', '--rounds', '1'], isSlow: true },
  { script: 'check-values', args: ['tests/golden/check-values/weather-and-navigation.json'] },
  { script: 'make-sample-forecasts', args: ['--out', 'OUT'], isSlow: true },
  { script: 'scripts/ccsds-options.ts', args: ['tests/golden/grib/files/bits07_ccsds.grib2'] },
  { script: 'scripts/make-grib-golden.ts', args: ['--out', 'OUT/fields.json'], isSlow: true },
];
