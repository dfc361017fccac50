/** An id that is not taken: the wanted one, else with the first number behind it that makes it one. */
export function freeId(wanted: string, takenIds: readonly string[]): string {
  let id = wanted;
  for (let count = 2; takenIds.includes(id); count++) id = `${wanted}-${count}`;
  return id;
}
