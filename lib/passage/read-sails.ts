import { assessDamage, readDamageFile, type DamageCaseFile } from '../sail/index.ts';
import { okUnless } from '../result/index.ts';
import { sailsFile } from './passage-file.ts';
import { problemsInside } from './problems-inside.ts';
import type { Reader } from './reader.ts';

/** Sails of a passage, each with its damage placed once to see that it can be; null: something is wrong with them. */
export function readSails(reader: Reader): readonly DamageCaseFile[] | null {
  const shapes = reader.part(sailsFile, 'sails', []);
  if (shapes === null) return null;
  const placeOf = (index: number): string => `${reader.place('sails')}[${index}]`;
  const read = shapes.map((shape, index) => {
    const checked = readDamageFile(shape, placeOf(index));
    return checked.ok ? assessDamage(checked.value, placeOf(index)) : checked;
  });
  return reader.keep(
    okUnless(
      read.flatMap((one, index) => (one.ok ? [] : problemsInside(one.problems, placeOf(index)))),
      () => shapes,
    ),
  );
}
