/** The plan that is shown, kept for the next start: until a new one is made, it is there at once. */
import { deserialize, serialize } from 'node:v8';
import { gunzipSync, gzipSync } from 'node:zlib';
import type { PlannedOf } from './keep-log.ts';
import type { PassageView } from './presenters/plan-standing.ts';
import type { Store } from './stores/index.ts';

export interface ShownBefore {
  readonly view: PassageView;
  readonly document: PlannedOf;
}

export interface KeptViews {
  /** Keeps it in the place of the one before. One that cannot be kept is only made again. */
  readonly keepView: (view: PassageView, document: PlannedOf) => void;
  /** The latest of a passage; null: there is none, or another program wrote it. */
  readonly latestView: (passageNumber: number) => ShownBefore | null;
}

interface Options {
  readonly store: Pick<Store, 'planViews'>;
  /** Of this program: what another one kept may have another shape. */
  readonly programPrint: () => string;
}

/** More would not be worth its time: half of it are figures that hardly pack. */
const LEVEL = 1;

export function keepViews({ store, programPrint }: Options): KeptViews {
  return {
    keepView: (view, { number, version, logNumber }) => {
      const octets = gzipSync(serialize(view), { level: LEVEL });
      store.planViews.keep({ passageNumber: number, version, logNumber, madeBy: programPrint(), octets });
    },
    latestView: (passageNumber) => {
      const found = store.planViews.get(passageNumber);
      if (!found.ok || found.value === null || found.value.madeBy !== programPrint()) return null;
      const { version, logNumber, octets } = found.value;
      const view = unpacked(octets);
      return isPassageView(view) ? { view, document: { number: passageNumber, version, logNumber } } : null;
    },
  };
}

/** null: the octets are damaged. */
function unpacked(octets: Uint8Array): unknown {
  try {
    return deserialize(gunzipSync(octets));
  } catch {
    return null;
  }
}

/** This very program wrote it, so the rest is as it should be. */
const isPassageView = (value: unknown): value is PassageView =>
  typeof value === 'object' && value !== null && 'plan' in value && 'picture' in value && 'names' in value;
