import { createHash, randomUUID } from "node:crypto";
import { type FileHandle, mkdir, open, readdir, rename, rm, stat, utimes } from "node:fs/promises";
import { join } from "node:path";
import { fileProblem } from "./fileProblem.ts";
import { frameOf, framesEnd, framesIn, framesStart } from "./frames.ts";

/** What is kept of a log. Of each kind the last few are kept, since a boat file may be tried with other sources or settings. */
const KEPT = { survey: 2, time: 4, sail: 4, seconds: 1 } as const;
export type Kind = keyof typeof KEPT;

const PARTIAL = ".partial";
const DAY_MS = 86_400_000;

/** A file that was being written this long ago is of a run that was killed; logs this long unused are forgotten. */
const ABANDONED_MS = DAY_MS;
const FORGOTTEN_MS = 90 * DAY_MS;

const hash = (text: string): string => createHash("sha256").update(text).digest("hex").slice(0, 40);

/** When files were changed last, ms since 1970; those that are gone by now left out. */
async function agesOf(folder: string, names: readonly string[]) {
  const found = await Promise.all(
    names.map(async (name) => {
      const status = await stat(join(folder, name)).catch(() => undefined);
      return status === undefined ? [] : [{ name, changed: status.mtimeMs }];
    }),
  );
  return found.flat();
}

/**
 * What was found in logs, kept on disk: a folder for each log, in it a file for each thing found, named for all that it depends
 * on. A file appears whole, by a rename, or not at all; one that is broken, or not ours, counts as absent. Several runs may use
 * one cache at once: they write the same things. What cannot be kept is told once, and is no failure.
 */
export class LogCache {
  readonly #folder: string;
  readonly #complain: (text: string) => void;
  #hasComplained = false;

  /** @param complain told in one line, once, when something could not be kept */
  constructor(folder: string, complain: (text: string) => void) {
    this.#folder = folder;
    this.#complain = complain;
  }

  /** What is kept under a name; undefined where nothing is, or nothing whole. Never throws. */
  async value(path: string, kind: Kind, about: string): Promise<unknown> {
    try {
      let found: unknown;
      for await (const value of framesIn(this.#fileOf(path, kind, about), about)) found = value;
      await this.#touch(path, kind, about);
      return found;
    } catch {
      return undefined;
    }
  }

  /** Keeps a value. Never throws. */
  async keep(path: string, kind: Kind, about: string, value: unknown): Promise<void> {
    const writing = await this.begin(path, kind, about);
    await writing.add(value);
    await writing.finish();
  }

  /** The values kept one after the other. @throws SpoiltFrames where they are not there, or at the first that is not whole */
  async *values(path: string, kind: Kind, about: string): AsyncGenerator<unknown, void, undefined> {
    yield* framesIn(this.#fileOf(path, kind, about), about);
    await this.#touch(path, kind, about);
  }

  /** Begins to keep values one after the other. Never throws. */
  async begin(path: string, kind: Kind, about: string): Promise<Keeping> {
    const target = this.#fileOf(path, kind, about);
    const keeping = new Keeping(
      target,
      (error) => this.#tell(error),
      () => this.#forgetOlder(path, kind),
    );
    await keeping.open(this.#folderOf(path), about);
    return keeping;
  }

  /** Takes away what was not used for long, and what killed runs left. Never throws. */
  async tidy(now: number): Promise<void> {
    const logs = await readdir(this.#folder).catch(() => []);
    for (const { name, changed } of await agesOf(this.#folder, logs.filter(isOurs))) {
      const folder = join(this.#folder, name);
      const files = await agesOf(folder, await readdir(folder).catch(() => []));
      const last = Math.max(changed, ...files.map((file) => file.changed));
      const gone = now - last > FORGOTTEN_MS ? [folder] : [];
      const partial = files.filter(
        (file) => file.name.includes(PARTIAL) && now - file.changed > ABANDONED_MS,
      );
      for (const path of [...gone, ...partial.map((file) => join(folder, file.name))])
        await rm(path, { recursive: true, force: true }).catch(() => undefined);
    }
  }

  #folderOf(path: string): string {
    return join(this.#folder, `log-${hash(path)}`);
  }

  #fileOf(path: string, kind: Kind, about: string): string {
    return join(this.#folderOf(path), `${kind}-${hash(about)}`);
  }

  async #touch(path: string, kind: Kind, about: string): Promise<void> {
    const now = new Date();
    await utimes(this.#fileOf(path, kind, about), now, now).catch(() => undefined);
  }

  async #forgetOlder(path: string, kind: Kind): Promise<void> {
    const folder = this.#folderOf(path);
    const names = (await readdir(folder).catch(() => [])).filter(
      (name) => name.startsWith(`${kind}-`) && !name.includes(PARTIAL),
    );
    const files = (await agesOf(folder, names)).sort((one, other) => other.changed - one.changed);
    for (const { name } of files.slice(KEPT[kind]))
      await rm(join(folder, name), { force: true }).catch(() => undefined);
  }

  #tell(error: unknown): void {
    if (this.#hasComplained) return;
    this.#hasComplained = true;
    const { reason } = fileProblem(this.#folder, error);
    this.#complain(`${this.#folder}: ${reason}; what was read is not kept for the next time`);
  }
}

const isOurs = (name: string): boolean => /^log-[0-9a-f]{40}$/.test(name);

/** A file of frames that is being written. None of its functions throws: what fails is told, and the file does not appear. */
export class Keeping {
  readonly #target: string;
  readonly #partial: string;
  readonly #failed: (error: unknown) => void;
  readonly #done: () => Promise<void>;
  #file: FileHandle | undefined;

  constructor(target: string, failed: (error: unknown) => void, done: () => Promise<void>) {
    this.#target = target;
    this.#partial = `${target}${PARTIAL}-${randomUUID()}`;
    this.#failed = failed;
    this.#done = done;
  }

  async open(folder: string, about: string): Promise<void> {
    try {
      await mkdir(folder, { recursive: true });
      this.#file = await open(this.#partial, "wx");
    } catch (error) {
      this.#failed(error);
    }
    await this.#write(framesStart(about));
  }

  async add(value: unknown): Promise<void> {
    if (this.#file) await this.#write(frameOf(value));
  }

  /** Lets the file appear. */
  async finish(): Promise<void> {
    await this.#write(framesEnd());
    const file = this.#file;
    if (!file) return;
    this.#file = undefined;
    try {
      await file.close();
      await rename(this.#partial, this.#target);
    } catch (error) {
      this.#failed(error);
      await rm(this.#partial, { force: true }).catch(() => undefined);
    }
    await this.#done();
  }

  /** Lets nothing appear. */
  async giveUp(): Promise<void> {
    const file = this.#file;
    this.#file = undefined;
    if (!file) return;
    await file.close().catch(() => undefined);
    await rm(this.#partial, { force: true }).catch(() => undefined);
  }

  async #write(bytes: Uint8Array): Promise<void> {
    try {
      await this.#file?.writeFile(bytes);
    } catch (error) {
      this.#failed(error);
      await this.giveUp();
    }
  }
}
