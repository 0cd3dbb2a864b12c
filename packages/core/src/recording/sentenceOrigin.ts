import { BOAT_DECODERS } from "./boatDecoders.ts";
import { POSITION_DECODERS } from "./positionDecoders.ts";
import { ReadingBounds } from "./quantityBounds.ts";
import type { QuantityName } from "./readings.ts";
import type { SentenceDecoder } from "./sentenceDecoder.ts";
import type { SourceList } from "./sourceList.ts";
import { Transducers } from "./transducers.ts";
import { WIND_DECODERS } from "./windDecoders.ts";

const COMMA = 0x2c;
const ADDRESS_LENGTH = 5;

/** Origins that were met last, by a few bits of their addresses; a power of two. */
const RECENT = 256;

/** Names of sources kept that tag blocks give; noise in names could go on for ever. */
const MOST_TAGS = 256;

/** An index that was not asked for yet. */
const UNKNOWN = -2;

/** One kind of sentence from one talker and, where tag blocks tell it, one source. */
export class SentenceOrigin {
  readonly id: number;
  /** The source that a tag block names; "" for none. */
  readonly tag: string;
  /** The address as numbers: the talker's two letters, the sentence's three. */
  readonly talker: number;
  readonly kind: number;
  readonly decoder: SentenceDecoder;
  readonly transducers: Transducers;
  /** Whether a sentence of this origin came with a right checksum: then all do. */
  hasChecksums = false;
  readonly #name: string;
  readonly #list: SourceList;
  readonly bounds: ReadingBounds;
  /** The indices of the sources that were met, by place among the decoder's quantities; negative for the others. */
  readonly sources: Int32Array;

  constructor(id: number, address: string, tag: string, decoder: SentenceDecoder, list: SourceList) {
    this.id = id;
    this.tag = tag;
    this.talker = talkerCode(address.charCodeAt(0), address.charCodeAt(1));
    this.kind = kindCode(address.charCodeAt(2), address.charCodeAt(3), address.charCodeAt(4));
    this.decoder = decoder;
    this.#name = `${address.slice(0, 2)} ${address.slice(2)}`;
    this.#list = list;
    this.sources = new Int32Array(decoder.quantities.length).fill(UNKNOWN);
    this.bounds = new ReadingBounds(decoder.quantities.map(([quantity]) => quantity));
    this.transducers = new Transducers((quantity, name) => this.#indexOf(quantity, name));
  }

  /** The index of the source of one of the sentence's quantities; −1 when there are too many sources. */
  sourceOf(place: number): number {
    const known = this.sources[place]!;
    return known === UNKNOWN ? this.#newSource(place) : known;
  }

  #newSource(place: number): number {
    const [quantity, suffix] = this.decoder.quantities[place]!;
    const index = this.#indexOf(quantity, suffix);
    this.sources[place] = index;
    return index;
  }

  #indexOf(quantity: QuantityName, suffix: string | undefined): number {
    const name = suffix === undefined ? this.#name : `${this.#name} ${suffix}`;
    return this.#list.indexOf(quantity, this.tag === "" ? name : `${name} (${this.tag})`);
  }
}

const talkerCode = (first: number, second: number): number => (first << 8) | second;

const kindCode = (first: number, second: number, third: number): number =>
  (first << 16) | (second << 8) | third;

interface SentenceKind {
  readonly decoder: SentenceDecoder;
  /** By the talker's two letters and the tag. */
  readonly origins: Map<string, SentenceOrigin>;
}

/** Finds the origin of a sentence by its address, among the kinds of sentences that are read. */
export class OriginBook {
  readonly #list: SourceList;
  readonly #kinds = new Map<number, SentenceKind>();
  readonly #recent: (SentenceOrigin | undefined)[] = new Array<undefined>(RECENT).fill(undefined);
  readonly #tags = new Set<string>();
  #origins = 0;

  constructor(list: SourceList) {
    this.#list = list;
    for (const [kind, decoder] of Object.entries({
      ...POSITION_DECODERS,
      ...WIND_DECODERS,
      ...BOAT_DECODERS,
    })) {
      const code = kindCode(kind.charCodeAt(0), kind.charCodeAt(1), kind.charCodeAt(2));
      this.#kinds.set(code, { decoder, origins: new Map() });
    }
  }

  /**
   * The origin of the sentence that starts at a place; undefined where its kind is not read. Never throws.
   *
   * @param tag the source that a tag block names; "" for none
   */
  originAt(bytes: Uint8Array, at: number, tag: string): SentenceOrigin | undefined {
    if (at + ADDRESS_LENGTH >= bytes.length || bytes[at + ADDRESS_LENGTH] !== COMMA) return undefined;
    const talker = talkerCode(bytes[at]!, bytes[at + 1]!);
    const kind = kindCode(bytes[at + 2]!, bytes[at + 3]!, bytes[at + 4]!);
    const place = (kind ^ (kind >> 7) ^ talker) & (RECENT - 1);
    const recent = this.#recent[place];
    if (recent !== undefined && recent.kind === kind && recent.talker === talker && recent.tag === tag)
      return recent;
    const origin = this.#lookUp(kind, bytes, at, this.#keptTag(tag));
    if (origin) this.#recent[place] = origin;
    return origin;
  }

  /** The tag, or none once there are too many. */
  #keptTag(tag: string): string {
    if (tag !== "" && this.#tags.size < MOST_TAGS) this.#tags.add(tag);
    return this.#tags.has(tag) ? tag : "";
  }

  #lookUp(code: number, bytes: Uint8Array, at: number, tag: string): SentenceOrigin | undefined {
    const kind = this.#kinds.get(code);
    if (kind === undefined) return undefined;
    const address = String.fromCharCode(...bytes.subarray(at, at + ADDRESS_LENGTH));
    const key = `${address.slice(0, 2)} ${tag}`;
    const known = kind.origins.get(key);
    if (known) return known;
    if (!/^[A-Z0-9]{2}/.test(address)) return undefined;
    const origin = new SentenceOrigin(this.#origins++, address, tag, kind.decoder, this.#list);
    kind.origins.set(key, origin);
    return origin;
  }
}
