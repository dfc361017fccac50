/** What a JSON Schema (objects, arrays, unions) allows, as paths: `jobs[].bindingLimit.limit`. */
export interface Schema {
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly items?: Schema;
  readonly anyOf?: readonly Schema[];
  readonly additionalProperties?: Schema | boolean;
}

/** Every path below a schema, parents before children, each once. */
export function pathsOf(schema: Schema, at = ''): readonly string[] {
  const below = Object.entries(schema.properties ?? {}).flatMap(([key, value]) => {
    const path = at === '' ? key : `${at}.${key}`;
    return [path, ...pathsOf(value, path)];
  });
  const values = typeof schema.additionalProperties === 'object' ? schema.additionalProperties : {};
  return [
    ...new Set([
      ...below,
      ...(schema.items === undefined ? [] : pathsOf(schema.items, `${at}[]`)),
      ...(schema.anyOf ?? []).flatMap((one) => pathsOf(one, at)),
      ...pathsOfValues(values, `${at}{}`),
    ]),
  ];
}

const pathsOfValues = (schema: Schema, at: string): readonly string[] =>
  Object.keys(schema).length === 0 ? [] : pathsOf(schema, at);

/** The last key of a path: `limit` of `jobs[].bindingLimit.limit`. */
export const keyOf = (path: string): string =>
  path
    .split('.')
    .at(-1)
    ?.replace(/(\[\]|\{\})+$/, '') ?? path;
