import type { z } from 'zod';
import type { Problem, Result } from '../result/index.ts';
import { placeOf, readShape, type At } from '../shape/index.ts';

export type Raw = Readonly<Record<string, unknown>>;

export const isRaw = (value: unknown): value is Raw =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Collects problems while parts are read one by one. */
export class Reader {
  readonly problems: Problem[] = [];
  readonly raw: Raw;
  readonly where: string;

  constructor(raw: Raw, where: string) {
    this.raw = raw;
    this.where = where;
  }

  at(key: string): At {
    return { where: this.where, path: [key] };
  }

  place(key: string): string {
    return placeOf(this.at(key));
  }

  /** The value, or null with its problems kept. */
  keep<T>(result: Result<T>): T | null {
    if (result.ok) return result.value;
    this.problems.push(...result.problems);
    return null;
  }

  /** A part by its schema; `absent` where the file leaves it out. */
  part<S extends z.ZodType>(schema: S, key: string, absent: unknown): z.output<S> | null {
    const raw = key in this.raw ? this.raw[key] : absent;
    return raw === undefined ? null : this.keep(readShape(schema, raw, this.at(key)));
  }
}
