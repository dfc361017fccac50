/** An address as it is shown and kept: without a name and password in it, and without its question part, which may hold a key. */
export const shownAddress = (address: string): string =>
  address.replace(/[?#].*$/s, '').replace(/^([a-z][a-z0-9+.-]*:)?\/\/[^/]*@/i, '$1//…@');
