import type { PacedRows } from "./pacedRows.ts";
import { printable } from "./problemList.ts";
import type { QuantityName } from "./readings.ts";
import { LETTER } from "./sentenceDecoder.ts";
import type { SentenceFields } from "./sentenceFields.ts";

const { A, D } = LETTER;

/** Each transducer of an XDR sentence has four fields: kind, value, unit, name. */
const PARTS = 4;

/** Names kept for one talker; noise in names could go on for ever. */
const MOST_NAMES = 32;

/** What the name of an angular transducer stands for; undefined where it is no attitude. Never throws. */
function attitudeOf(name: string): "heel" | "pitch" | undefined {
  const upper = name.toUpperCase();
  if (/RATE|GYRO|ACC|TAB/.test(upper)) return undefined;
  if (/HEEL|ROLL/.test(upper)) return "heel";
  return /PITCH|PTCH|TRIM/.test(upper) ? "pitch" : undefined;
}

interface Transducer {
  readonly name: Uint8Array;
  /** The index of its source; −1 where it is none that is read. */
  readonly source: number;
}

/**
 * Finds heel and pitch among the transducers of a talker's XDR sentences: those of kind A (an angle) in degrees (D)
 * whose names say so.
 */
export class Transducers {
  readonly #known: Transducer[] = [];
  readonly #sourceOf: (quantity: QuantityName, name: string) => number;

  /** @param sourceOf the index of a source, by what it measures and the transducer's name */
  constructor(sourceOf: (quantity: QuantityName, name: string) => number) {
    this.#sourceOf = sourceOf;
  }

  /** Adds each heel or pitch (rad) that the sentence tells to the rows. Never throws. */
  read(fields: SentenceFields, rows: PacedRows): void {
    const { bytes, commas, count } = fields;
    let angles = 0;
    for (let field = 1; field + PARTS - 1 <= count; field += PARTS) {
      const isAngle = bytes[commas[field - 1]! + 1] === A && bytes[commas[field + 1]! + 1] === D;
      if (!isAngle || commas[field + 1]! - commas[field]! < 2) continue;
      const source = this.#sourceNamed(bytes, commas[field + 2]! + 1, commas[field + 3]!, angles++);
      if (source < 0) continue;
      const angle = fields.halfTurn(field + 1);
      if (!Number.isNaN(angle)) rows.add(source, angle);
    }
  }

  /** The source by its name in the sentence, looked for first at the place that it had among the known ones. */
  #sourceNamed(bytes: Uint8Array, from: number, to: number, place: number): number {
    const likely = this.#known[place];
    if (likely !== undefined && isWritten(likely.name, bytes, from, to)) return likely.source;
    return this.#sourceAnywhere(bytes, from, to);
  }

  #sourceAnywhere(bytes: Uint8Array, from: number, to: number): number {
    const known = this.#known.find(({ name }) => isWritten(name, bytes, from, to));
    return known ? known.source : this.#newSource(bytes.slice(from, to));
  }

  #newSource(name: Uint8Array): number {
    const text = printable(name, 0, name.length).trim();
    const quantity = attitudeOf(text);
    const source = quantity === undefined ? -1 : this.#sourceOf(quantity, text);
    if (this.#known.length < MOST_NAMES) this.#known.push({ name, source });
    return source;
  }
}

function isWritten(name: Uint8Array, bytes: Uint8Array, from: number, to: number): boolean {
  if (name.length !== to - from) return false;
  for (let at = 0; at < name.length; at++) if (name[at] !== bytes[from + at]) return false;
  return true;
}
