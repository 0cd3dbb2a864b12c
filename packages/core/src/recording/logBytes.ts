import { GunzipStream, isGzip } from "./gunzipStream.ts";

/** The bytes of a log as they were before gzip, if they were (told by the first two), from chunks of any size. Never throws. */
export class LogBytes {
  readonly #onBytes: (bytes: Uint8Array) => void;
  /** The first bytes, until they tell whether the log is compressed. */
  #first = new Uint8Array(0);
  #gunzip: GunzipStream | undefined;
  #isOpen = false;

  /** @param onBytes called with plain bytes, in their order */
  constructor(onBytes: (bytes: Uint8Array) => void) {
    this.#onBytes = onBytes;
  }

  /** What is wrong with the compressed stream; "" as long as nothing is. */
  get fault(): string {
    return this.#gunzip?.fault ?? "";
  }

  push(chunk: Uint8Array): void {
    if (this.#isOpen) this.#handOn(chunk);
    else this.#open(chunk, false);
  }

  finish(): void {
    if (!this.#isOpen) this.#open(new Uint8Array(0), true);
    this.#gunzip?.finish();
  }

  #open(chunk: Uint8Array, isLast: boolean): void {
    const bytes = new Uint8Array(this.#first.length + chunk.length);
    bytes.set(this.#first);
    bytes.set(chunk, this.#first.length);
    this.#first = bytes;
    if (bytes.length < 2 && !isLast) return;
    this.#first = new Uint8Array(0);
    this.#isOpen = true;
    if (isGzip(bytes[0], bytes[1])) this.#gunzip = new GunzipStream(this.#onBytes);
    this.#handOn(bytes);
  }

  #handOn(chunk: Uint8Array): void {
    if (this.#gunzip) this.#gunzip.push(chunk);
    else this.#onBytes(chunk);
  }
}
