/** Numbers written into octets, and octets put together. */

/** Big-endian; a place beyond the end is written as far as there are octets. */
export function writeNumber(
  bytes: Uint8Array,
  place: { readonly startIndex: number; readonly lengthOctets: number },
  value: number,
): void {
  let rest = value;
  for (let i = place.lengthOctets - 1; i >= 0; i--) {
    bytes[place.startIndex + i] = rest % 256;
    rest = Math.floor(rest / 256);
  }
}

export const joined = (...parts: readonly Uint8Array[]): Uint8Array => new Uint8Array(Buffer.concat(parts));

/** `bytes` with what stands between two places replaced. */
export const replaced = (
  bytes: Uint8Array,
  span: { readonly from: number; readonly to: number },
  by: Uint8Array,
): Uint8Array => joined(bytes.subarray(0, span.from), by, bytes.subarray(span.to));
