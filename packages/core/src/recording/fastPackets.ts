import { BYTES_IN_A_FRAME, MOST_BYTES } from "./canFrame.ts";

/** The first byte of each frame: which message of its sender (3 bits), which frame of the message (5 bits). */
const COUNTER_MASK = 0x1f;

/** Messages of one sender and parameter group that may be under way at once. */
const SEQUENCES = 8;

const BYTES_IN_FIRST_FRAME = 6;

/** A message that is being put together. */
interface Assembly {
  readonly data: Uint8Array;
  /** Records that its frames were. */
  readonly records: number[];
  /** Bytes so far, and in all; 0 in all where its beginning was missed. */
  filled: number;
  length: number;
}

/** What became of a frame: it waits for the next ones, completes its message, or follows frames that are missing. */
export type FrameOutcome = "waiting" | "complete" | "stray";

/**
 * M102. Puts fast packets together: messages of up to 223 bytes in frames of 8, which their sender counts. Frames of several senders,
 * parameter groups and messages may come in any mixture, those of one message in order. Nothing here throws.
 */
export class FastPackets {
  /** The message that the last frame completed, and the records that its earlier frames were. */
  data: Uint8Array = new Uint8Array(0);
  length = 0;
  records: readonly number[] = [];

  readonly #assemblies = new Map<number, Assembly>();
  readonly #onLost: (records: readonly number[], received: string, expected: string) => void;

  /** @param onLost is told the records of each message that will not be whole, and why in words */
  constructor(onLost: (records: readonly number[], received: string, expected: string) => void) {
    this.#onLost = onLost;
  }

  /**
   * Takes a frame.
   *
   * @param key tells senders and parameter groups apart: any whole number
   * @param record that the frame is
   */
  push(key: number, frame: Uint8Array, length: number, record: number): FrameOutcome {
    if (length < 2) return "stray";
    const place = key * SEQUENCES + (frame[0]! >> 5);
    const counter = frame[0]! & COUNTER_MASK;
    const assembly = this.#assemblyAt(place);
    if (counter === 0) {
      this.#lose(assembly);
      assembly.length = Math.min(frame[1]!, MOST_BYTES);
      return this.#add(assembly, frame.subarray(2, Math.min(length, BYTES_IN_A_FRAME)), record);
    }
    if (assembly.records.length !== counter) {
      this.#lose(assembly);
      return "stray";
    }
    return this.#add(assembly, frame.subarray(1, Math.min(length, BYTES_IN_A_FRAME)), record);
  }

  /** Gives up what is not whole, the log having ended. */
  finish(): void {
    for (const assembly of this.#assemblies.values()) this.#lose(assembly);
  }

  #assemblyAt(place: number): Assembly {
    const known = this.#assemblies.get(place);
    if (known) return known;
    const fresh: Assembly = { data: new Uint8Array(MOST_BYTES), records: [], filled: 0, length: 0 };
    this.#assemblies.set(place, fresh);
    return fresh;
  }

  #add(assembly: Assembly, bytes: Uint8Array, record: number): FrameOutcome {
    const part = bytes.subarray(0, assembly.length - assembly.filled);
    assembly.data.set(part, assembly.filled);
    assembly.filled += part.length;
    if (assembly.filled < assembly.length) {
      assembly.records.push(record);
      return "waiting";
    }
    this.data = assembly.data;
    this.length = assembly.length;
    this.records = assembly.records.splice(0);
    clear(assembly);
    return "complete";
  }

  #lose(assembly: Assembly): void {
    const records = assembly.records.splice(0);
    const frames = 1 + Math.ceil((assembly.length - BYTES_IN_FIRST_FRAME) / (BYTES_IN_A_FRAME - 1));
    clear(assembly);
    if (records.length > 0)
      this.#onLost(records, `${records.length} of them`, `all ${frames} frames of a fast packet`);
  }
}

function clear(assembly: Assembly): void {
  assembly.filled = 0;
  assembly.length = 0;
}
