/** Shape of the parameter tables. */

/** Name and unit of a parameter, as its table gives them. */
export type ParameterName = readonly [name: string, unit: string];

/** Names by the key that the table's header describes. */
export type ParameterTable = Readonly<Record<string, ParameterName>>;
