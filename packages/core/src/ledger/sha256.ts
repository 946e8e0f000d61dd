import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import { canonicalJson } from './canonical-json.ts';

/** SHA-256 of bytes, in lower-case hexadecimal. @source fips-180-4 */
export function sha256OfBytes(bytes: Uint8Array): string {
  return bytesToHex(sha256(bytes));
}

/** SHA-256 of the RFC 8785 form of a value in UTF-8: its name wherever it is kept. */
export function sha256OfJson(value: unknown): string {
  return sha256OfBytes(utf8ToBytes(canonicalJson(value)));
}
