import { LIMITS } from './limits';
import { refuse } from './refusal';

const startsWith = (bytes: Uint8Array, ...start: number[]): boolean =>
  start.every((byte, i) => bytes[i] === byte);

/** Encoding by byte order mark, by the zeros that UTF-16 leaves beside '<' or '{', or as the XML declaration says. */
function encodingOf(bytes: Uint8Array): string {
  if (startsWith(bytes, 0xff, 0xfe)) return 'utf-16le';
  if (startsWith(bytes, 0xfe, 0xff)) return 'utf-16be';
  if (startsWith(bytes, 0xef, 0xbb, 0xbf)) return 'utf-8';
  if (startsWith(bytes, 0x3c, 0)) return 'utf-16le';
  if (startsWith(bytes, 0, 0x3c)) return 'utf-16be';
  let head = '';
  for (const byte of bytes.subarray(0, 200)) head += String.fromCharCode(byte);
  return /^\s*<\?xml[^>]*?encoding\s*=\s*["']([\w.:-]+)["']/.exec(head)?.[1] ?? 'utf-8';
}

function decode(bytes: Uint8Array, file: string): string {
  const named = encodingOf(bytes).toLowerCase();
  // A declaration that says UTF-16 in a file without its zeros was written by a program that then saved as UTF-8.
  const encoding =
    named.startsWith('utf-16') &&
    !bytes.subarray(0, 4).includes(0) &&
    !startsWith(bytes, 0xff, 0xfe) &&
    !startsWith(bytes, 0xfe, 0xff)
      ? 'utf-8'
      : named;
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    // TextDecoder throws RangeError for an unknown encoding and TypeError for bytes that do not fit it.
    return refuse('file-not-text', { file, encoding });
  }
}

/**
 * The text of a file, byte order mark removed.
 * @param data bytes as read from disk, or text already decoded
 * @param file name for messages
 * @throws Refusal for an empty, oversized or binary file, or bytes that are not in the encoding the file claims
 */
export function decodeFile(data: Uint8Array | string, file: string): string {
  const size = data.length;
  if (size > LIMITS.bytes) refuse('file-too-large', { file, size, most: LIMITS.bytes });
  const decoded = typeof data === 'string' ? data : decode(data, file);
  const text = decoded.startsWith('\uFEFF') ? decoded.slice(1) : decoded;
  if (text.trim() === '') refuse('file-empty', { file });
  if (text.includes('\0')) refuse('file-not-svg', { file });
  return text;
}
