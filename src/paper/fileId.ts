const FNV_PRIME = 0x01000193;
const SEEDS = [0x811c9dc5, 0x9e3779b9, 0x85ebca6b, 0xc2b2ae35] as const;

/**
 * 32 hex digits that follow from the bytes alone (four FNV-1a sums with different starts, mixed at the end).
 * Tells files apart; keeps no secrets.
 */
function fileIdOf(bytes: Uint8Array): string {
  return SEEDS.map((seed) => {
    let h = seed as number;
    for (let i = 0; i < bytes.length; i += 1) h = Math.imul(h ^ bytes[i]!, FNV_PRIME);
    h = Math.imul(h ^ (h >>> 16), 0x7feb352d);
    h ^= h >>> 15;
    return (h >>> 0).toString(16).toUpperCase().padStart(8, '0');
  }).join('');
}

const ID_ENTRY = '/ID [ <';
const EMPTY_ID = '0'.repeat(32);

/** Write the id into a PDF whose trailer holds an id of 32 zeros (twice); lengths do not change, so its cross references stay right. */
export function stampFileId(bytes: Uint8Array): Uint8Array {
  const tail = String.fromCharCode(...bytes.subarray(Math.max(0, bytes.length - 600)));
  const offset = Math.max(0, bytes.length - 600);
  const entry = tail.lastIndexOf(ID_ENTRY);
  const id = fileIdOf(bytes);
  for (let at = tail.indexOf(EMPTY_ID, entry); entry >= 0 && at >= 0; at = tail.indexOf(EMPTY_ID, at + 1)) {
    for (let i = 0; i < id.length; i += 1) bytes[offset + at + i] = id.charCodeAt(i);
  }
  return bytes;
}
