/** For the end of a switch over everything there is to say: something has no words. */
export function neverSaid(what: never): never {
  throw new Error(`nothing is said of ${JSON.stringify(what)}`);
}
