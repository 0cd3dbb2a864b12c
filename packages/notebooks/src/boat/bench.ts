import { type AnswerFiles, type Boat, type JobRun, mustReadAgain, UNKNOWN_BOAT } from "@bothtacks/core";
import type { KeptFile } from "../between/keptFiles.ts";
import { type Choices, NO_CHOICES } from "./choices.ts";
import { columnsToFillIn } from "./columnsToFillIn.ts";
import { wordsOf } from "./messages.ts";
import type { AnswerSeen, LogsSeen, Workshop } from "./workshop.ts";

/** What is being done just now. */
export interface Doing {
  readonly what: string;
  /** 0 to 1; NaN where that cannot be told. */
  readonly share: number;
}

/** The recording that comes with the page, and the boat that it is of. */
export interface Demo {
  readonly file: File;
  readonly boat: Boat;
}

/** Legs and turns, by their numbers and places in the sailing. */
export interface LeftOut {
  readonly legs: readonly number[];
  readonly turns: readonly number[];
}

const NOTHING_LEFT_OUT: LeftOut = { legs: [], turns: [] };

/** Logs that were read. */
export interface ReadLogs {
  readonly files: readonly File[];
  readonly summary: LogsSeen;
}

/** An answer, what it rests on, and when it came. */
export interface Answered extends ReadLogs {
  readonly calibrated: AnswerSeen;
  readonly leftOut: LeftOut;
  /** The boat as she was told then. */
  readonly boat: Boat;
  /** s since 1970 UTC. */
  readonly made: number;
}

/** All that the page shows. */
export interface BenchState {
  /** The boat that the next answer is for. */
  readonly boat: Boat;
  readonly isDemo: boolean;
  /** What the next answer leaves out. */
  readonly leftOut: LeftOut;
  readonly doing?: Doing | undefined;
  /** Why the last wish came to nothing. */
  readonly trouble?: string | undefined;
  /** A mapping file to fill in, where the logs were refused since nobody has told what their columns hold. */
  readonly toFillIn?: string | undefined;
  /** The last answer, which stands until there is another. */
  readonly answered?: Answered | undefined;
}

const CALLED_OFF = "Called off.";

/** Whether the answer is for another boat than the one that is told now: the last try came to nothing. Never throws. */
export const isOutOfDate = ({ answered, boat, doing }: BenchState): boolean =>
  doing === undefined && answered !== undefined && answered.boat !== boat;

/** The place of one leg or turn among those left out: in it no more, or now in it. */
const switched = (places: readonly number[], place: number): readonly number[] =>
  places.includes(place) ? places.filter((one) => one !== place) : [...places, place].sort((a, b) => a - b);

/** The navigator's bench: logs, boat, what is left out, and the answer. It knows nothing of a document. */
export class Bench {
  private now: BenchState;
  private readonly listeners = new Set<(state: BenchState) => void>();
  private task: AbortController | undefined;
  /** The logs that are being read. */
  private opening: { readonly files: readonly File[]; readonly isDemo: boolean } | undefined;

  /**
   * @param workshop where the long work is done
   * @param choices what is kept from visit to visit
   */
  constructor(
    private readonly workshop: Workshop,
    private readonly choices: Choices = NO_CHOICES,
  ) {
    this.now = { boat: choices.boat() ?? UNKNOWN_BOAT, isDemo: false, leftOut: NOTHING_LEFT_OUT };
  }

  get state(): BenchState {
    return this.now;
  }

  /** Calls back with each new state, until the function that it returns is called. */
  listen(listener: (state: BenchState) => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** Reads logs of one's own, and answers. Never rejects: trouble stands in the state. */
  open(files: readonly File[]): Promise<void> {
    const boat = this.now.isDemo ? (this.choices.boat() ?? UNKNOWN_BOAT) : this.now.boat;
    return this.readAndAnswer(files, boat, false);
  }

  /** The same with a recording that brings its boat along; one's own boat is back with one's own logs. */
  openDemo(demo: () => Promise<Demo>): Promise<void> {
    return this.attempt(async (run) => {
      const { file, boat } = await demo();
      return this.readAnswer([file], boat, true, run);
    });
  }

  /** Another boat: answers for her, and reads again where that is needed. Never rejects. */
  async setBoat(boat: Boat): Promise<void> {
    this.set({ boat });
    const { answered, isDemo } = this.opening ? { ...this.now, ...this.opening } : this.now;
    if (!isDemo) this.choices.keepBoat(boat);
    if (this.opening) await this.readAndAnswer(this.opening.files, boat, isDemo);
    else if (answered && mustReadAgain(answered.summary, boat))
      await this.readAndAnswer(answered.files, boat, isDemo);
    else if (answered) await this.answerAnew(answered);
  }

  /** Leaves a leg or a turn out, or puts it back, and answers. Never rejects. */
  async leaveOutOrPutBack(what: keyof LeftOut, place: number): Promise<void> {
    const { leftOut } = this.now;
    await this.leaveOut({ ...leftOut, [what]: switched(leftOut[what], place) });
  }

  /** Puts all back that was left out, and answers. Never rejects. */
  putAllBack(): Promise<void> {
    return this.leaveOut(NOTHING_LEFT_OUT);
  }

  /** Answers again for the boat and what is left out as they stand. Never rejects. */
  async answerAgain(): Promise<void> {
    if (this.now.answered) await this.setBoat(this.now.boat);
  }

  /** Calls off what is being done; the earlier answer stands. */
  callOff(): void {
    this.task?.abort(new Error(CALLED_OFF));
  }

  /**
   * One of the files that the command line writes for the same logs and boat: the same text.
   *
   * @param plotlySource gives the source text of plotly, asked for only where the file takes it along
   * @returns undefined where there is no answer, or it leaves no files. @throws what `plotlySource` rejects with
   */
  async fileText(name: keyof AnswerFiles, plotlySource: () => Promise<string>): Promise<string | undefined> {
    const { answered } = this.now;
    if (answered === undefined) return undefined;
    const plotly = name === "report.html" ? await plotlySource() : "";
    return this.workshop.file({ ...answered, leaveOut: answered.leftOut, name, plotly }, {});
  }

  /** Keeps a calibration's file in this browser, to be compared with others; says whether there was room. */
  keepCalibration(file: KeptFile): boolean {
    return this.choices.keepCalibration(file);
  }

  /** Forgets what is kept from visit to visit; what is on the page stays. */
  forget(): void {
    this.choices.forget();
  }

  private async leaveOut(leftOut: LeftOut): Promise<void> {
    const { answered } = this.now;
    if (answered === undefined) return;
    this.set({ leftOut });
    this.choices.keepLeftOut(answered.summary, leftOut);
    await this.answerAnew(answered);
  }

  private readAndAnswer(files: readonly File[], boat: Boat, isDemo: boolean): Promise<void> {
    return this.attempt((run) => this.readAnswer(files, boat, isDemo, run), { files, isDemo });
  }

  private async readAnswer(
    files: readonly File[],
    boat: Boat,
    isDemo: boolean,
    run: JobRun,
  ): Promise<Partial<BenchState>> {
    const summary = await this.workshop.read({ files, boat }, run);
    const leftOut = this.choices.leftOut(summary) ?? NOTHING_LEFT_OUT;
    const answered = await this.answer({ files, summary }, boat, leftOut, run);
    return { boat, isDemo, leftOut, answered };
  }

  private answerAnew(logs: ReadLogs): Promise<void> {
    const { boat, leftOut } = this.now;
    return this.attempt(async (run) => ({ answered: await this.answer(logs, boat, leftOut, run) }));
  }

  private async answer(
    { files, summary }: ReadLogs,
    boat: Boat,
    leftOut: LeftOut,
    run: JobRun,
  ): Promise<Answered> {
    const calibrated = await this.workshop.answer({ files, summary, boat, leaveOut: leftOut }, run);
    return { files, summary, calibrated, leftOut, boat, made: Date.now() / 1000 };
  }

  /** Does one thing in place of any other; where it fails, what was there stands, and what was left out is as it was. */
  private async attempt(
    work: (run: JobRun) => Promise<Partial<BenchState>>,
    opening?: { readonly files: readonly File[]; readonly isDemo: boolean },
  ): Promise<void> {
    this.task?.abort(new Error(CALLED_OFF));
    this.opening = opening;
    const task = new AbortController();
    this.task = task;
    const isCurrent = (): boolean => this.task === task;
    const progress = (what: string, share: number): void => {
      if (isCurrent()) this.set({ doing: { what, share } });
    };
    this.set({ trouble: undefined, toFillIn: undefined, doing: { what: "beginning", share: Number.NaN } });
    try {
      const done = await work({ progress, signal: task.signal });
      if (isCurrent()) this.end({ ...done, doing: undefined });
    } catch (error) {
      const trouble = wordsOf(error);
      const toFillIn = opening && (await columnsToFillIn(opening.files, trouble).catch(() => undefined));
      const leftOut = this.now.answered?.leftOut ?? NOTHING_LEFT_OUT;
      if (isCurrent()) this.end({ doing: undefined, trouble, toFillIn, leftOut });
    }
  }

  private end(change: Partial<BenchState>): void {
    this.opening = undefined;
    this.set(change);
  }

  private set(change: Partial<BenchState>): void {
    this.now = { ...this.now, ...change };
    for (const listener of this.listeners) listener(this.now);
  }
}
