import { assessDamage, readDamageFile, type DamageCaseFile } from '../sail/index.ts';
import { okUnless } from '../result/index.ts';
import { sailsFile } from './passage-file.ts';
import type { Reader } from './reader.ts';

/** Sails of a passage, each with its damage placed once to see that it can be; null: something is wrong with them. */
export function readSails(reader: Reader): readonly DamageCaseFile[] | null {
  const shapes = reader.part(sailsFile, 'sails', []);
  if (shapes === null) return null;
  const read = shapes.map((shape, index) => {
    const where = `${reader.place('sails')}[${index}]`;
    const checked = readDamageFile(shape, where);
    return checked.ok ? assessDamage(checked.value, where) : checked;
  });
  return reader.keep(
    okUnless(
      read.flatMap((one) => (one.ok ? [] : one.problems)),
      () => shapes,
    ),
  );
}
