import { existsSync, readdirSync, statSync } from 'node:fs';
import path from 'node:path';
import { failed, type Result } from '../../lib/result/index.ts';
import {
  type ArchiveTarget,
  checkTarget,
  type ToPack,
  writeArchive,
  type WrittenArchive,
} from './archive/write-archive.ts';
import { forecastRows } from './read-rows.ts';
import { GRIB_NAME } from './grib-files.ts';
import { openReading } from './open-reading.ts';
import { databasePath, gribFolderOf, refuseNewer } from './open-store.ts';
import { sweepParts, withPart } from './part-files.ts';
import { snapshot } from './snapshot.ts';
import { attemptLater, noStore } from './store-problems.ts';

export interface BackupOf {
  /** Folder of the store. */
  readonly folder: string;
  readonly target: ArchiveTarget;
  /** Version of the program. */
  readonly program: string;
  readonly atEpochMs: number;
}

/**
 * The whole store as one file, also while a server writes to it: one state of the database, and the forecast files. The
 * store stays as it is. A forecast file that is damaged or gone is left out, and a remark of the manifest says so.
 *
 * @returns `store.none`, `store.newer`, `store.damaged`, `file.exists`, `file.not-written`, `store.disk-full`, `store.cannot-write`
 */
export function backUpStore({ folder, target, program, atEpochMs }: BackupOf): Promise<Result<WrittenArchive>> {
  const toFolder = path.dirname(path.resolve(target.file));
  return attemptLater(toFolder, async () => {
    const database = databasePath(folder);
    if (!existsSync(database)) return failed(noStore(folder));
    const untouched = refuseNewer(folder);
    if (!untouched.ok) return untouched;
    const free = checkTarget(target);
    if (!free.ok) return free;
    sweepParts(toFolder);
    return withPart(toFolder, async (copy) => {
      const taken = snapshot(database, copy);
      if (!taken.ok) return taken;
      const files = [
        { name: 'slatch.db', from: copy, expectedOctets: statSync(copy).size },
        ...gribFiles(gribFolderOf(folder), [...openReading(copy, forecastRows).keys()]),
      ];
      return writeArchive(target, { slatch: 'store', program, madeAtEpochMs: atEpochMs }, files);
    });
  });
}

/** All that lie there, and all that are listed: of one that is listed and gone the archive says so. */
function gribFiles(folder: string, listed: readonly string[]): readonly ToPack[] {
  const there = existsSync(folder) ? readdirSync(folder).filter((name) => GRIB_NAME.test(name)) : [];
  const names = new Set([...there, ...listed.map((hash) => `${hash}.grib`)]);
  return [...names].toSorted().map((name) => {
    const from = path.join(folder, name);
    const expectedOctets = statSync(from, { throwIfNoEntry: false })?.size ?? 0;
    return { name: `grib/${name}`, from, sha256: name.slice(0, -'.grib'.length), expectedOctets };
  });
}
