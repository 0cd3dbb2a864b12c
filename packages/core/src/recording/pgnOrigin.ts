import { MOST_BYTES } from "./canFrame.ts";
import type { PgnDecoder } from "./pgnDecoder.ts";
import { PGN_DECODERS } from "./pgnDecoders.ts";
import { ReadingBounds } from "./quantityBounds.ts";
import type { SourceList } from "./sourceList.ts";

/** Keys are made of bus, address, parameter group and instance, side by side. */
const ADDRESSES = 256;
const GROUPS = 2 ** 18;
const INSTANCES = 256;

/** More origins than any boat has: what lies beyond is noise that passed for addresses, and is not remembered. */
const MOST_ORIGINS = 8192;

/** An index that was not asked for yet. */
const UNKNOWN = -2;

/** One kind of message from one device, told apart by instance where it has several sensors. */
export class PgnOrigin {
  readonly id: number;
  readonly decoder: PgnDecoder;
  readonly bounds: ReadingBounds;
  readonly #name: string;
  readonly #list: SourceList;
  readonly #indices: Int32Array;

  constructor(id: number, name: string, decoder: PgnDecoder, list: SourceList) {
    this.id = id;
    this.decoder = decoder;
    this.bounds = new ReadingBounds(decoder.quantities.map(([quantity]) => quantity));
    this.#name = name;
    this.#list = list;
    this.#indices = new Int32Array(decoder.quantities.length).fill(UNKNOWN);
  }

  /** The index of the source of one of the message's quantities; −1 when there are too many sources. */
  sourceOf(place: number): number {
    const known = this.#indices[place]!;
    return known === UNKNOWN ? this.#newSource(place) : known;
  }

  #newSource(place: number): number {
    const [quantity, suffix] = this.decoder.quantities[place]!;
    const index = this.#list.indexOf(quantity, suffix === undefined ? this.#name : `${this.#name} ${suffix}`);
    this.#indices[place] = index;
    return index;
  }
}

/** Where a message comes from. */
export interface PgnSender {
  /** Which of several buses: the first has no name in those of sources. */
  readonly bus: number;
  readonly busName: string;
  readonly source: number;
}

/** Finds how a message is read and what its sources are. */
export class PgnOriginBook {
  readonly #list: SourceList;
  readonly #decoders = new Map(PGN_DECODERS.map((decoder) => [decoder.pgn, decoder]));
  readonly #origins = new Map<number, PgnOrigin>();

  constructor(list: SourceList) {
    this.#list = list;
  }

  /** How messages of a parameter group are read; undefined where they are not. Never throws. */
  decoderOf(pgn: number): PgnDecoder | undefined {
    return this.#decoders.get(pgn);
  }

  /** The origin of a message. Never throws. */
  originOf(decoder: PgnDecoder, sender: PgnSender, data: Uint8Array): PgnOrigin {
    const { instanceAt } = decoder;
    const instance = instanceAt === undefined ? 0 : data[Math.min(instanceAt, MOST_BYTES - 1)]!;
    const key = senderKey(sender, decoder.pgn) * INSTANCES + instance;
    const known = this.#origins.get(key);
    if (known) return known;
    const name = [
      ...(sender.bus > 0 ? [sender.busName] : []),
      `${sender.source} PGN ${decoder.pgn}`,
      ...(instanceAt === undefined ? [] : [`instance ${instance}`]),
    ].join(" ");
    const origin = new PgnOrigin(this.#origins.size, name, decoder, this.#list);
    if (this.#origins.size < MOST_ORIGINS) this.#origins.set(key, origin);
    return origin;
  }
}

/** A number for each sender and parameter group. Never throws. */
export const senderKey = ({ bus, source }: PgnSender, pgn: number): number =>
  (bus * ADDRESSES + source) * GROUPS + pgn;
