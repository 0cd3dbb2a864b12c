import { type FileHandle, open } from "node:fs/promises";
import { deserialize, serialize } from "node:v8";
import { crc32 } from "node:zlib";

/** What a file of frames begins with; another number is another format. */
const MAGIC = Buffer.from("bothtacks frames 1\n");

/** Before each frame: its length in bytes and its check sum. */
const HEAD_BYTES = 8;

/** A length that no frame has: after it nothing comes. */
const END = 0xffffffff;

/** Longer frames are not ours. */
const LONGEST: number = 1 << 30;

/** A file of frames that is absent, not ours, of something else, or not whole. */
export class SpoiltFrames extends Error {
  override readonly name = "SpoiltFrames";
}

const head = (length: number, sum: number): Buffer => {
  const bytes = Buffer.alloc(HEAD_BYTES);
  bytes.writeUInt32LE(length, 0);
  bytes.writeUInt32LE(sum, 4);
  return bytes;
};

/** What a file of frames begins with: the format, and what it is about. */
export const framesStart = (about: string): Uint8Array => Buffer.concat([MAGIC, frameOf(about)]);

/** A value as a frame. Numbers keep every bit. @throws Error for what cannot be cloned */
export function frameOf(value: unknown): Uint8Array {
  const bytes = serialize(value);
  return Buffer.concat([head(bytes.length, crc32(bytes)), bytes]);
}

/** What ends a file of frames. */
export const framesEnd = (): Uint8Array => head(END, 0);

async function bytesOf(file: FileHandle, length: number): Promise<Buffer> {
  const bytes = Buffer.alloc(length);
  const { bytesRead } = await file.read(bytes, 0, length);
  if (bytesRead < length) throw new SpoiltFrames("the file is cut");
  return bytes;
}

/** The next frame; undefined after the last. */
async function nextFrame(file: FileHandle): Promise<{ readonly value: unknown } | undefined> {
  const start = await bytesOf(file, HEAD_BYTES);
  const length = start.readUInt32LE(0);
  if (length === END) return undefined;
  if (length > LONGEST) throw new SpoiltFrames("no frame is that long");
  const bytes = await bytesOf(file, length);
  if (crc32(bytes) !== start.readUInt32LE(4)) throw new SpoiltFrames("a check sum is wrong");
  return { value: deserialize(bytes) };
}

/**
 * The values of a file of frames, one after the other, each checked before it is handed on.
 *
 * @param about what the file must be about
 * @throws SpoiltFrames where it is absent, not ours, about something else, or not whole
 */
export async function* framesIn(path: string, about: string): AsyncGenerator<unknown, void, undefined> {
  const file = await open(path, "r").catch(() => {
    throw new SpoiltFrames("the file cannot be opened");
  });
  try {
    if (!(await bytesOf(file, MAGIC.length)).equals(MAGIC)) throw new SpoiltFrames("the file is not ours");
    const first = await nextFrame(file);
    if (first?.value !== about) throw new SpoiltFrames("the file is about something else");
    for (let frame = await nextFrame(file); frame; frame = await nextFrame(file)) yield frame.value;
  } finally {
    await file.close();
  }
}
