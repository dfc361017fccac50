import type { EntryField } from '../entry-forms/index.ts';

/**
 * Fields whose hints say what holds where nothing is entered: that the default is in force, or what it would be.
 *
 * @param texts what the inputs show for the passage as it is
 * @param defaults texts of the defaults by the names of the inputs; a field without one has none to tell
 */
export const withDefaults = (
  fields: readonly EntryField[],
  texts: ReadonlyMap<string, string>,
  defaults: ReadonlyMap<string, string>,
): readonly EntryField[] =>
  fields.map((one) => {
    const value = defaults.get(one.name);
    if (value === undefined) return one;
    const words = [wordsOf(one, value), ...(one.unit === '' || !/^[-+\d.]+$/.test(value) ? [] : [one.unit])].join(' ');
    const isDefault = (texts.get(one.name) ?? '') === '';
    const said = isDefault ? `Now the default: ${words}.` : `Yours; default: ${words}.`;
    return { ...one, hint: [said, one.hint].filter((text) => text !== '').join(' ') };
  });

const wordsOf = ({ options }: EntryField, value: string): string =>
  options.find((option) => option.value === value)?.text ?? value;
