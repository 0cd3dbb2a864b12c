import type { Problem } from "./readings.ts";

type ProblemKind = Problem["kind"];

const MOST_KEPT = 100;
const LONGEST_RECEIVED = 100;

/** Bytes as text: printable ASCII as it is, anything else as \xNN; at most 100 characters. Never throws. */
export function printable(bytes: Uint8Array, from: number, to: number): string {
  let text = "";
  for (let at = from; at < to && text.length < LONGEST_RECEIVED; at++) {
    const byte = bytes[at]!;
    text +=
      byte >= 0x20 && byte < 0x7f ? String.fromCharCode(byte) : `\\x${byte.toString(16).padStart(2, "0")}`;
  }
  return text.slice(0, LONGEST_RECEIVED);
}

/** The problems of a log: the first hundred as they are, all of them counted by kind. */
export class ProblemList {
  readonly #file: string;
  readonly #kept: Problem[] = [];
  readonly #counts = new Map<ProblemKind, number>();

  constructor(file: string) {
    this.#file = file;
  }

  get problems(): readonly Problem[] {
    return this.#kept;
  }

  /** How many of each kind there were. */
  get counts(): Readonly<Record<ProblemKind, number>> {
    const count = (kind: ProblemKind): number => this.#counts.get(kind) ?? 0;
    return {
      checksum: count("checksum"),
      field: count("field"),
      cut: count("cut"),
      binary: count("binary"),
      "too long": count("too long"),
      clock: count("clock"),
      column: count("column"),
      compression: count("compression"),
    };
  }

  get isFull(): boolean {
    return this.#kept.length >= MOST_KEPT;
  }

  add(kind: ProblemKind, line: number, received: string, expected: string): void {
    this.#counts.set(kind, (this.#counts.get(kind) ?? 0) + 1);
    if (!this.isFull) this.#kept.push({ kind, file: this.#file, line, received, expected });
  }
}
