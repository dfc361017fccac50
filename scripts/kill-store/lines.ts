/** What the worker says, a line each, and what its killer makes of it. */
import { z } from 'zod';

/** Something kept: what it is called, and what must be found under that name. */
export interface Kept {
  /** `log 1.7`, `version 2.3`, `forecast <hash>` … */
  readonly key: string;
  /** SHA-256 of the content; of a plan view its serial number. */
  readonly mark: string;
}

const lineSchema = z.discriminatedUnion('say', [
  z.object({ say: z.literal('opening') }),
  z.object({ say: z.literal('open') }),
  /** It begins something that takes a while. */
  z.object({ say: z.literal('begins'), what: z.string() }),
  /** It is about to take this away. */
  z.object({ say: z.literal('removes'), key: z.string() }),
  /** The store has answered ok. */
  z.object({ say: z.literal('kept'), key: z.string(), mark: z.string() }),
  z.object({ say: z.literal('removed'), key: z.string() }),
  /** A backup or a restored folder is there. */
  z.object({ say: z.literal('made'), path: z.string() }),
]);

export type Line = z.infer<typeof lineSchema>;

/** Whole lines of what was printed; the last one may have been cut by the kill. */
export const linesOf = (printed: string): readonly Line[] =>
  printed
    .split('\n')
    .slice(0, -1)
    .filter((line) => line !== '')
    .map((line) => lineSchema.parse(JSON.parse(line)));

/** What was acknowledged, in its order. */
export class Acknowledged {
  readonly #kept = new Map<string, string>();
  readonly #unsure = new Set<string>();

  take(lines: readonly Line[]): void {
    for (const line of lines) {
      if (line.say === 'kept') {
        // What is kept again comes last.
        this.#kept.delete(line.key);
        this.#kept.set(line.key, line.mark);
        this.#unsure.delete(line.key);
      }
      if (line.say === 'removes') this.#unsure.add(line.key);
      if (line.say === 'removed') this.forget(line.key);
    }
  }

  forget(key: string): void {
    this.#kept.delete(key);
    this.#unsure.delete(key);
  }

  /** What was on its way out is known to be there or not. */
  settle(isThere: (key: string) => boolean): void {
    for (const key of this.#unsure) if (!isThere(key)) this.#kept.delete(key);
    this.#unsure.clear();
  }

  /** All that must be there. */
  kept(): readonly Kept[] {
    return [...this.#kept].filter(([key]) => !this.#unsure.has(key)).map(([key, mark]) => ({ key, mark }));
  }

  /** Whether a key is known, kept or on its way out. */
  knows(key: string): boolean {
    return this.#kept.has(key);
  }
}
