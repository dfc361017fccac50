/** A message of edition 2 whose product templates are exchanged for plain ones, for a reference that does not know them. */

const INDICATOR_OCTETS = 16;
/** Template 4.0 of temperature at the surface: 34 octets that any reader understands. */
const PLAIN_SECTION = Uint8Array.from([
  0, 0, 0, 34, 4, 0, 0, 0, 0, 0, 0, 2, 255, 255, 255, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0, 255, 255, 255, 255, 255,
]);

/** Grid, bitmap and values stay as they are. */
export function withPlainProduct(message: Uint8Array): Uint8Array {
  const view = new DataView(message.buffer, message.byteOffset, message.byteLength);
  const parts: Uint8Array[] = [message.slice(0, INDICATOR_OCTETS)];
  let index = INDICATOR_OCTETS;
  while (index + 5 <= message.length - 4) {
    const lengthOctets = view.getUint32(index);
    parts.push(message[index + 4] === 4 ? PLAIN_SECTION : message.subarray(index, index + lengthOctets));
    index += Math.max(5, lengthOctets);
  }
  parts.push(message.subarray(message.length - 4));
  const whole = Buffer.concat(parts);
  whole.writeBigUInt64BE(BigInt(whole.length), 8);
  return new Uint8Array(whole);
}
