import { type Calibration, calibrationFromFile, type History } from "@bothtacks/core";
import { clock, type PlanText } from "@bothtacks/core/page";
import { wordsOf } from "../worker/said.ts";
import type { Bureau } from "./bureau.ts";
import { type KeptFile, type KeptFiles, NO_KEPT_FILES } from "./keptFiles.ts";
import type { PlanWish } from "./planWish.ts";

/** A calibration and the file that it came from. */
export interface Given extends KeptFile {
  readonly calibration: Calibration;
}

/** A plan with what it was made for; `text` is undefined where nothing is worth sailing. */
export interface Planned {
  readonly after: Given;
  readonly wish: PlanWish;
  readonly text: PlanText | undefined;
}

/** All that the page shows. */
export interface AlbumState {
  /** In the order of their recordings. */
  readonly given: readonly Given[];
  /** What was not taken, and why: a sentence each. */
  readonly refused: readonly string[];
  /** The user's word that nothing was keyed in between. */
  readonly nothingKeyedIn: boolean;
  /** Whether this browser had room for the calibrations. */
  readonly isKept: boolean;
  readonly comparing: boolean;
  readonly planning: boolean;
  readonly history?: History | undefined;
  readonly planned?: Planned | undefined;
  /** Why comparing or planning came to nothing. */
  readonly trouble?: string | undefined;
}

const inOrder = (given: readonly Given[]): readonly Given[] =>
  [...given].sort((one, other) => one.calibration.recording.start - other.calibration.recording.start);

function givenOf({ name, text }: KeptFile): Given | { readonly refused: string } {
  try {
    return { name, text, calibration: calibrationFromFile(text, name) };
  } catch (error) {
    return { refused: wordsOf(error) };
  }
}

/** Calibrations of one boat, what has moved between them, and what to sail next. It knows nothing of a document. */
export class Album {
  private now: AlbumState;
  private readonly listeners = new Set<(state: AlbumState) => void>();
  private readonly tasks = new Map<"comparing" | "planning", AbortController>();

  /**
   * @param bureau where the work is done
   * @param kept what stays from visit to visit
   */
  constructor(
    private readonly bureau: Bureau,
    private readonly kept: KeptFiles = NO_KEPT_FILES,
  ) {
    const read = kept.list().map(givenOf);
    this.now = {
      given: inOrder(read.filter((one): one is Given => "calibration" in one)),
      refused: read.flatMap((one) => ("refused" in one ? [one.refused] : [])),
      nothingKeyedIn: false,
      isKept: true,
      comparing: false,
      planning: false,
    };
  }

  get state(): AlbumState {
    return this.now;
  }

  /** Calls back with each new state, until the function that it returns is called. */
  listen(listener: (state: AlbumState) => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** Compares what was kept from an earlier visit. Never rejects. */
  begin(): Promise<void> {
    return this.compare();
  }

  /** Takes files; what is no calibration is refused by name, and what is there already is not taken twice. Never rejects. */
  async add(files: readonly File[]): Promise<void> {
    const texts = await Promise.all(
      files.map(async (file) => ({ name: file.name, text: await file.text().catch(wordsOf) })),
    );
    const has = new Set(this.now.given.map(({ text }) => text));
    const read = texts.map((one) =>
      has.has(one.text) ? { refused: `${one.name}: is here already` } : givenOf(one),
    );
    const taken = read.filter((one): one is Given => "calibration" in one);
    const refused = read.flatMap((one) => ("refused" in one ? [one.refused] : []));
    await this.change([...this.now.given, ...taken], refused);
  }

  /** Takes one out, by its place. Never rejects. */
  remove(place: number): Promise<void> {
    return this.change(this.now.given.toSpliced(place, 1), []);
  }

  /** Takes all out, of this browser too. Never rejects. */
  clear(): Promise<void> {
    return this.change([], []);
  }

  /** Takes the user's word on what was keyed in. Never rejects. */
  setNothingKeyedIn(nothingKeyedIn: boolean): Promise<void> {
    this.set({ nothingKeyedIn });
    return this.compare();
  }

  /** Plans the sail after one of the calibrations. Never rejects. */
  plan(place: number, wish: PlanWish): Promise<void> {
    const after = this.now.given[place];
    if (after === undefined) return Promise.resolve();
    const { calibration } = after;
    return this.attempt("planning", async (signal) => {
      const plan = await this.bureau.plan({ kind: "plan", calibration, wish }, { signal });
      const text = plan.exercises.length > 0 ? { ...wish, fit: calibration.fit, plan } : undefined;
      return { planned: { after, wish, text } };
    });
  }

  /** Calls off what is being done. */
  callOff(): void {
    for (const task of this.tasks.values()) task.abort(new Error("Called off."));
  }

  private async change(given: readonly Given[], refused: readonly string[]): Promise<void> {
    const ordered = inOrder(given);
    const isKept = this.kept.keep(ordered.map(({ name, text }) => ({ name, text })));
    const { planned } = this.now;
    const stays = planned !== undefined && ordered.includes(planned.after);
    this.set({ given: ordered, refused, isKept, planned: stays ? planned : undefined });
    await this.compare();
  }

  private async compare(): Promise<void> {
    const { given, nothingKeyedIn } = this.now;
    this.tasks.get("comparing")?.abort(new Error("Called off."));
    if (given.length < 2) {
      this.tasks.delete("comparing");
      this.set({ history: undefined, comparing: false });
      return;
    }
    const calibrations = given.map(({ calibration }) => calibration);
    await this.attempt("comparing", async (signal) => ({
      history: await this.bureau.history({ kind: "history", calibrations, nothingKeyedIn }, { signal }),
    }));
  }

  private async attempt(
    what: "comparing" | "planning",
    work: (signal: AbortSignal) => Promise<Partial<AlbumState>>,
  ): Promise<void> {
    this.tasks.get(what)?.abort(new Error("Called off."));
    const task = new AbortController();
    this.tasks.set(what, task);
    this.set({ [what]: true, trouble: undefined });
    const end = (change: Partial<AlbumState>): void => {
      if (this.tasks.get(what) === task) this.set({ ...change, [what]: false });
    };
    try {
      end(await work(task.signal));
    } catch (error) {
      end({ trouble: wordsOf(error) });
    }
  }

  private set(change: Partial<AlbumState>): void {
    this.now = { ...this.now, ...change };
    for (const listener of this.listeners) listener(this.now);
  }
}

/** When a calibration's recording began. Never throws. */
export const dayOf = ({ recording }: Calibration): string => clock(recording.start).slice(0, 10);

/**
 * What calibrations are called: by their files, with the day where several files have one name. A calibration that came out of
 * a worker is told by its recording. Never throws.
 */
export const namesOf =
  (given: readonly Given[]) =>
  (calibration: Calibration): string => {
    const { start } = calibration.recording;
    const found = given.find((one) => one.calibration.recording.start === start);
    if (found === undefined) return "";
    const isOnly = given.filter(({ name }) => name === found.name).length === 1;
    return isOnly ? found.name : `${found.name} of ${dayOf(calibration)}`;
  };
