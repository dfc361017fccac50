/** `824 octets`, `12 kB`, `3.4 MB` */
export function sizeText(octets: number): string {
  if (octets < 1000) return `${octets} octets`;
  if (octets < 1_000_000) return `${Math.round(octets / 1000)} kB`;
  return `${(octets / 1_000_000).toFixed(1)} MB`;
}
