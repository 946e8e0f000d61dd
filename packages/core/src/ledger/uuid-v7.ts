/**
 * A UUID version 7: 48 bits of Unix milliseconds, then random bits, so that names sort by the clock that made them.
 *
 * @param millis  Unix time [ms], 0 to 2^48 − 1
 * @param random  ten random bytes
 * @source rfc-9562 section 5.7
 */
export function uuidV7(millis: number, random: Uint8Array): string {
  if (!(millis >= 0 && millis < 2 ** 48)) throw new Error(`${millis} ms does not fit a UUID`);
  if (random.length < 10) throw new Error(`${random.length} random bytes, ten are needed`);
  const time = Math.floor(millis).toString(16).padStart(12, '0');
  const rest = [...random.subarray(0, 10)];
  rest[0] = 0x70 | (rest[0]! & 0x0f);
  rest[2] = 0x80 | (rest[2]! & 0x3f);
  const hex = rest.map((byte) => byte.toString(16).padStart(2, '0')).join('');
  return `${time.slice(0, 8)}-${time.slice(8)}-${hex.slice(0, 4)}-${hex.slice(4, 8)}-${hex.slice(8)}`;
}
