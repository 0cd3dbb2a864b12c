import { attitudeOf, BOAT_DECODERS } from "./boatDecoders.ts";
import { POSITION_DECODERS } from "./positionDecoders.ts";
import type { QuantityName } from "./readings.ts";
import type { SentenceDecoder } from "./sentenceDecoder.ts";
import type { SentenceFields } from "./sentenceFields.ts";
import type { SourceList } from "./sourceList.ts";
import { WIND_DECODERS } from "./windDecoders.ts";

const COMMA = 0x2c;
const ADDRESS_LENGTH = 5;

/** Names kept for one origin; noise in names could go on for ever. */
const MOST_TRANSDUCERS = 32;

/** An index that was not asked for yet. */
const UNKNOWN = -2;

/** Three letters as one number. */
const kindCode = (first: number, second: number, third: number): number =>
  (first << 16) | (second << 8) | third;

/** A transducer by its name, and what it measures if it is one that is read. */
interface Transducer {
  readonly name: string;
  readonly quantity: QuantityName | undefined;
}

/** One kind of sentence from one talker. */
export class SentenceOrigin {
  readonly id: number;
  readonly decoder: SentenceDecoder;
  /** Whether a sentence of this origin came with a right checksum: then all do. */
  hasChecksums = false;
  readonly #name: string;
  readonly #list: SourceList;
  /** By place among the decoder's quantities. */
  readonly #indices: Int32Array;
  readonly #transducers: Transducer[] = [];

  constructor(id: number, name: string, decoder: SentenceDecoder, list: SourceList) {
    this.id = id;
    this.#name = name;
    this.decoder = decoder;
    this.#list = list;
    this.#indices = new Int32Array(decoder.quantities.length).fill(UNKNOWN);
  }

  /** The index of the source of one of the sentence's quantities; −1 when there are too many sources. */
  sourceOf(place: number): number {
    const known = this.#indices[place]!;
    if (known !== UNKNOWN) return known;
    const [quantity, suffix] = this.decoder.quantities[place]!;
    const index = this.#list.indexOf(quantity, suffix === undefined ? this.#name : `${this.#name} ${suffix}`);
    this.#indices[place] = index;
    return index;
  }

  /** The transducer whose name stands in a field. */
  transducerOf(fields: SentenceFields, field: number): Transducer {
    const [from, to] = [fields.from(field), fields.to(field)];
    for (const transducer of this.#transducers)
      if (isWritten(transducer.name, fields.bytes, from, to)) return transducer;
    const name = String.fromCharCode(...fields.bytes.subarray(from, to)).trim();
    const transducer = { name, quantity: attitudeOf(name) };
    if (this.#transducers.length < MOST_TRANSDUCERS) this.#transducers.push(transducer);
    return transducer;
  }

  /** The index of a transducer's source; −1 when there are too many sources. */
  sourceOfTransducer(quantity: QuantityName, name: string): number {
    return this.#list.indexOf(quantity, `${this.#name} ${name}`);
  }
}

function isWritten(name: string, bytes: Uint8Array, from: number, to: number): boolean {
  if (name.length !== to - from) return false;
  for (let at = 0; at < name.length; at++) if (name.charCodeAt(at) !== bytes[from + at]) return false;
  return true;
}

interface SentenceKind {
  readonly decoder: SentenceDecoder;
  readonly byTalker: Map<number, SentenceOrigin>;
}

/** Finds the origin of a sentence by its address, among the kinds of sentences that are read. */
export class OriginBook {
  readonly #list: SourceList;
  readonly #kinds = new Map<number, SentenceKind>();
  #origins = 0;

  constructor(list: SourceList) {
    this.#list = list;
    for (const [kind, decoder] of Object.entries({
      ...POSITION_DECODERS,
      ...WIND_DECODERS,
      ...BOAT_DECODERS,
    })) {
      const code = kindCode(kind.charCodeAt(0), kind.charCodeAt(1), kind.charCodeAt(2));
      this.#kinds.set(code, { decoder, byTalker: new Map() });
    }
  }

  /** The origin of the sentence that starts at a place; undefined where its kind is not read. Never throws. */
  originAt(bytes: Uint8Array, at: number): SentenceOrigin | undefined {
    if (bytes[at + ADDRESS_LENGTH] !== COMMA) return undefined;
    const kind = this.#kinds.get(kindCode(bytes[at + 2]!, bytes[at + 3]!, bytes[at + 4]!));
    if (kind === undefined) return undefined;
    const talker = (bytes[at]! << 8) | bytes[at + 1]!;
    return kind.byTalker.get(talker) ?? this.#newOrigin(kind, talker, bytes, at);
  }

  #newOrigin(kind: SentenceKind, talker: number, bytes: Uint8Array, at: number): SentenceOrigin | undefined {
    const address = String.fromCharCode(...bytes.subarray(at, at + ADDRESS_LENGTH));
    if (!/^[A-Z0-9]{2}/.test(address)) return undefined;
    const name = `${address.slice(0, 2)} ${address.slice(2)}`;
    const origin = new SentenceOrigin(this.#origins++, name, kind.decoder, this.#list);
    kind.byTalker.set(talker, origin);
    return origin;
  }
}
