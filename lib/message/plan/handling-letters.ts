/** Letters for the handlings of one message, in the order they come up: A to Z, then AA, AB … */
export class HandlingLetters {
  readonly #ids: string[] = [];

  get ids(): readonly string[] {
    return this.#ids;
  }

  letterOf(id: string): string {
    const known = this.#ids.indexOf(id);
    if (known >= 0) return letters(known);
    this.#ids.push(id);
    return letters(this.#ids.length - 1);
  }
}

function letters(index: number): string {
  const last = String.fromCodePoint(65 + (index % 26));
  return index < 26 ? last : `${letters(Math.floor(index / 26) - 1)}${last}`;
}

/** Place in the list [from 0] of a handling's letters. */
export const handlingIndex = (text: string): number =>
  Array.from(text).reduce((index, letter) => index * 26 + (letter.codePointAt(0) ?? 0) - 64, 0) - 1;
