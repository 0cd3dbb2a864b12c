import { Gunzip } from "fflate/browser";

/** Compressed bytes handed to the decoder at once: bounds what one step can swell to, and makes chunks not matter. */
const SLICE_LENGTH = 8192;

/**
 * No log swells so much: one of a boat that lies still, three sentences a second and nothing in them but the time changing, does
 * 42 times, one sentence over and over 410 times, and gzip cannot do more than 1,032 times. It may until so many bytes.
 */
const MOST_SWELLING = 300;
const SWELLS_UNASKED = 64e6;

const TRAILER_LENGTH = 8;
/** A member that holds nothing: header 10, an empty block 2, trailer 8 (RFC 1951 and 1952). The decoder waits for more in silence. */
const SHORTEST = 20;
const MAGIC = [0x1f, 0x8b] as const;

const CRC_TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let remainder = byte;
  for (let bit = 0; bit < 8; bit++)
    remainder = remainder & 1 ? (remainder >>> 1) ^ 0xedb88320 : remainder >>> 1;
  return remainder;
});

/** CRC-32 continued over more bytes, as gzip has it (RFC 1952, section 8). */
function crc32(bytes: Uint8Array, before: number): number {
  let crc = ~before;
  for (let at = 0; at < bytes.length; at++) crc = (crc >>> 8) ^ CRC_TABLE[(crc ^ bytes[at]!) & 0xff]!;
  return ~crc >>> 0;
}

/** Whether a file that starts with these two bytes is gzip (RFC 1952, section 2.3.1). */
export const isGzip = (first: number | undefined, second: number | undefined): boolean =>
  first === MAGIC[0] && second === MAGIC[1];

/**
 * Undoes gzip as chunks come, one or several members in a row, and checks each member's CRC-32. What was undone before
 * a fault has been handed on and stands. A stream that swells to more than 300 times its size, beyond its first 64 MB, is at fault,
 * so that no small file fills memory or time. Never throws.
 */
export class GunzipStream {
  readonly #decoder: Gunzip;
  readonly #slice = new Uint8Array(SLICE_LENGTH);
  #filled = 0;
  /** Compressed bytes that the decoder has been given, and the last two slices of them, where trailers are looked up. */
  #given = 0;
  /** Bytes that came out. */
  #undone = 0;
  #recent = new Uint8Array(0);
  #crc = 0;
  #fault = "";

  constructor(onBytes: (bytes: Uint8Array) => void) {
    this.#decoder = new Gunzip((bytes) => {
      this.#crc = crc32(bytes, this.#crc);
      this.#undone += bytes.length;
      onBytes(bytes);
    });
    this.#decoder.onmember = (offset) => {
      if (offset > 0) this.#checkMember(offset);
    };
  }

  /** What is wrong with the compressed stream; "" as long as nothing is. */
  get fault(): string {
    return this.#fault;
  }

  push(chunk: Uint8Array): void {
    for (let at = 0; at < chunk.length && this.#fault === ""; ) {
      const part = chunk.subarray(at, at + SLICE_LENGTH - this.#filled);
      this.#slice.set(part, this.#filled);
      this.#filled += part.length;
      at += part.length;
      if (this.#filled === SLICE_LENGTH) this.#give(false);
    }
  }

  finish(): void {
    if (this.#fault !== "") return;
    this.#give(true);
    if (this.#given < SHORTEST && this.#fault === "") this.#fault = "one that ends before its data begin";
    if (this.#fault === "") this.#checkMember(this.#given);
  }

  #give(isLast: boolean): void {
    const slice = this.#slice.slice(0, this.#filled);
    this.#filled = 0;
    this.#given += slice.length;
    const before = this.#recent.subarray(-SLICE_LENGTH);
    this.#recent = new Uint8Array(before.length + slice.length);
    this.#recent.set(before);
    this.#recent.set(slice, before.length);
    try {
      this.#decoder.push(slice, isLast);
    } catch (error) {
      this.#fault = error instanceof Error ? error.message : String(error);
    }
    if (this.#undone > SWELLS_UNASKED && this.#undone > MOST_SWELLING * this.#given)
      this.#fault = `one that swells to more than ${MOST_SWELLING} times its size, as no log does`;
  }

  /** Compares the CRC-32 of what a member held with that in its trailer, which ends at an offset of the stream. */
  #checkMember(offset: number): void {
    const at = this.#recent.length - (this.#given - offset) - TRAILER_LENGTH;
    const isKept = at >= 0;
    const { buffer, byteOffset, length } = this.#recent;
    const stated = isKept ? new DataView(buffer, byteOffset, length).getUint32(at, true) : this.#crc;
    if (stated !== this.#crc) this.#fault = "the CRC-32 of the data does not match";
    this.#crc = 0;
  }
}
