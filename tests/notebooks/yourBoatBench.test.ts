/**
 * The bench of "Your boat": what stands when something fails, is called off or is overtaken; the boat form; what is kept.
 *
 * INPUTS: a simulated sail of some 50 minutes (seed 41207); for what happens when, a workshop whose work ends when the test
 *   says so.
 * MARGIN: none.
 */
import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import type { Boat } from "../../packages/core/src/calibration/boat.ts";
import { boatFromFile, boatInFile, UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import { calibrationFileText } from "../../packages/core/src/calibration/calibrationFile.ts";
import { ANSWER_FILES, answerFiles } from "../../packages/core/src/job/answerFiles.ts";
import { answerOf, type Calibrated } from "../../packages/core/src/job/answerOf.ts";
import { calibrationOf } from "../../packages/core/src/job/calibrationOf.ts";
import type { JobRun } from "../../packages/core/src/job/logSource.ts";
import { type LogsSummary, summariseLogs } from "../../packages/core/src/job/summariseLogs.ts";
import type { WindTrack } from "../../packages/core/src/report/answer.ts";
import { evidenceIn } from "../../packages/core/src/report/evidence.ts";
import { noCorrections } from "../../packages/core/src/sensors/noCorrections.ts";
import { radians } from "../../packages/core/src/units.ts";
import { keptFilesOn } from "../../packages/notebooks/src/between/keptFiles.ts";
import { Bench, isOutOfDate } from "../../packages/notebooks/src/boat/bench.ts";
import {
  ACTIVE,
  GIVEN,
  GROUPS,
  KEYED_IN,
  sourceFields,
} from "../../packages/notebooks/src/boat/boatFields.ts";
import { boatFileText, boatOfFile } from "../../packages/notebooks/src/boat/boatFile.ts";
import { boatOfForm, valuesOfBoat } from "../../packages/notebooks/src/boat/boatValues.ts";
import { choicesOn, type Shelf } from "../../packages/notebooks/src/boat/choices.ts";
import { Holding, inThisThread } from "../../packages/notebooks/src/boat/holding.ts";
import { daysOf, itemWords } from "../../packages/notebooks/src/boat/legsAndTurns.ts";
import { logsOfFiles } from "../../packages/notebooks/src/boat/logsOfFiles.ts";
import type { Ended, Task } from "../../packages/notebooks/src/boat/messages.ts";
import { anglesByDay, shearByDay } from "../../packages/notebooks/src/boat/shearByDay.ts";
import {
  type AnswerSeen,
  type LogsSeen,
  type Workshop,
  workshopOf,
} from "../../packages/notebooks/src/boat/workshop.ts";
import { stayingWorker, type WorkerLine } from "../../packages/notebooks/src/worker/stayingWorker.ts";
import { serveTasks } from "../../packages/notebooks/src/worker/tasks.ts";
import { fileOf, garbage, goodLog, oneTackLog } from "../support/boatLogs.ts";

const good = fileOf(goodLog());
const bad = fileOf(garbage());

let logs: LogsSummary;
let whole: Calibrated;
/** The same without the rows, as the page has them. */
let summary: LogsSeen;
let calibrated: AnswerSeen;

const withoutRows = ({ rows, ...calibration }: Calibrated): Omit<Calibrated, "rows"> => calibration;

beforeAll(async () => {
  logs = await summariseLogs(logsOfFiles([good]), UNKNOWN_BOAT);
  whole = answerOf(logs, UNKNOWN_BOAT);
  const { rows, ...sailing } = logs.sailing;
  const evidence = evidenceIn({ recording: logs.recording, ...sailing }, rows);
  summary = { ...logs, sailing, evidence, number: 1 };
  calibrated = { ...withoutRows(whole), number: 2 };
});

/** Work that was asked for and has not ended. */
interface Pending {
  readonly kind: "read" | "answer" | "file";
  readonly boat: Boat;
  readonly leaveOut?: unknown;
  readonly end: () => void;
  readonly fail: (words: string) => void;
}

/** A workshop whose work ends when told; called off, it rejects as the real ones do. */
function slowWorkshop(): { readonly workshop: Workshop; readonly pending: Pending[] } {
  const pending: Pending[] = [];
  const waiting = <Result>(
    kind: Pending["kind"],
    task: { readonly boat: Boat; readonly leaveOut?: unknown },
    result: () => Result,
    signal: AbortSignal | undefined,
  ) =>
    new Promise<Result>((resolve, reject) => {
      signal?.addEventListener("abort", () => reject(signal.reason));
      pending.push({
        kind,
        boat: task.boat,
        leaveOut: task.leaveOut,
        end: () => resolve(result()),
        fail: (words) => reject(new Error(words)),
      });
    });
  const workshop: Workshop = {
    read: (task, { signal }) => waiting("read", task, () => summary, signal),
    answer: (task, { signal }) => waiting("answer", task, () => ({ ...calibrated, boat: task.boat }), signal),
    file: (task, { signal }) => waiting("file", task, () => "", signal),
  };
  return { workshop, pending };
}

/** Lets everything that waits for an ended piece of work go on. */
const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

/** A bench with an answer, and what is pending on it. */
async function answeredBench(shelf?: Shelf) {
  const { workshop, pending } = slowWorkshop();
  const bench = new Bench(workshop, shelf && choicesOn(() => shelf));
  void bench.open([good]);
  pending[0]!.end();
  await settled();
  pending[1]!.end();
  await settled();
  pending.length = 0;
  expect(bench.state.answered?.calibrated.answer).toBe(whole.answer);
  return { bench, pending };
}

describe("the earlier answer stands", () => {
  it("when another log cannot be read", async () => {
    const { bench, pending } = await answeredBench();
    const before = bench.state.answered;
    void bench.open([bad]);
    expect(bench.state.doing).toBeDefined();
    pending[0]!.fail("no log");
    await settled();
    expect(bench.state).toMatchObject({ answered: before, trouble: "no log", doing: undefined });
  });

  it("when reading is called off, and when answering is: what was left out is put back", async () => {
    const { bench, pending } = await answeredBench();
    const before = bench.state.answered;
    void bench.open([bad]);
    bench.callOff();
    await settled();
    expect(bench.state).toMatchObject({ answered: before, trouble: "Called off.", doing: undefined });
    expect(isOutOfDate(bench.state)).toBe(false);
    void bench.leaveOutOrPutBack("legs", 3);
    expect(bench.state.leftOut.legs).toEqual([3]);
    bench.callOff();
    await settled();
    expect(bench.state.leftOut).toEqual({ legs: [], turns: [] });
    expect(bench.state.answered).toBe(before);
    expect(pending).toHaveLength(2);
  });
});

it("an answer for another boat than the one told is known for one, and can be had again", async () => {
  const { bench, pending } = await answeredBench();
  void bench.setBoat({ ...UNKNOWN_BOAT, name: "Tern" });
  expect(isOutOfDate(bench.state)).toBe(false);
  bench.callOff();
  await settled();
  expect(isOutOfDate(bench.state)).toBe(true);
  void bench.answerAgain();
  pending.at(-1)!.end();
  await settled();
  expect(isOutOfDate(bench.state)).toBe(false);
  expect(bench.state.answered?.calibrated.boat.name).toBe("Tern");
});

describe("what overtakes what", () => {
  it("the last wish is the one that is answered, and nothing is read again for it", async () => {
    const { bench, pending } = await answeredBench();
    void bench.leaveOutOrPutBack("legs", 5);
    void bench.leaveOutOrPutBack("turns", 2);
    void bench.leaveOutOrPutBack("legs", 1);
    expect(pending.map(({ kind, leaveOut }) => [kind, leaveOut])).toEqual([
      ["answer", { legs: [5], turns: [] }],
      ["answer", { legs: [5], turns: [2] }],
      ["answer", { legs: [1, 5], turns: [2] }],
    ]);
    for (const { end } of pending) end();
    await settled();
    expect(bench.state.answered?.leftOut).toEqual({ legs: [1, 5], turns: [2] });
    expect(bench.state).toMatchObject({ doing: undefined, trouble: undefined });
    void bench.leaveOutOrPutBack("legs", 5);
    expect(pending.at(-1)?.leaveOut).toEqual({ legs: [1], turns: [2] });
    void bench.putAllBack();
    expect(pending.at(-1)?.leaveOut).toEqual({ legs: [], turns: [] });
  });

  it("another computer is answered for; other active corrections are read for", async () => {
    const { bench, pending } = await answeredBench();
    const { computer } = UNKNOWN_BOAT;
    void bench.setBoat({ ...UNKNOWN_BOAT, computer: { ...computer, table: "true" }, computerIs: "given" });
    expect(pending.map(({ kind }) => kind)).toEqual(["answer"]);
    const active = { ...noCorrections, vane: { ...noCorrections.vane, mastheadOffset: radians(2) } };
    const corrected = {
      ...UNKNOWN_BOAT,
      settings: { base: "sensors without corrections", active } as const,
    };
    void bench.setBoat(corrected);
    expect(pending.at(-1)).toMatchObject({ kind: "read", boat: corrected });
  });

  it("a change of the boat while a log is being read reads that log for the new boat", async () => {
    const { workshop, pending } = slowWorkshop();
    const bench = new Bench(workshop);
    void bench.open([good]);
    const named = { ...UNKNOWN_BOAT, name: "Tern" };
    void bench.setBoat(named);
    await settled();
    expect(pending.at(-1)).toMatchObject({ kind: "read", boat: named });
    pending.at(-1)!.end();
    await settled();
    pending.at(-1)!.end();
    await settled();
    expect(bench.state.answered?.calibrated.boat.name).toBe("Tern");
    expect(bench.state.boat.name).toBe("Tern");
  });
});

describe("with the real work", () => {
  it("a leg left out moves the answer as the library does, and put back gives the same again", async () => {
    const bench = new Bench(inThisThread());
    await bench.open([good]);
    const first = bench.state.answered;
    expect(first?.summary).toEqual(summary);
    expect(first?.calibrated).toEqual(calibrated);
    await bench.leaveOutOrPutBack("legs", 5);
    const without = bench.state.answered?.calibrated;
    expect(without).toMatchObject(withoutRows(answerOf(logs, UNKNOWN_BOAT, { leaveOut: { legs: [5] } })));
    expect(without?.answer.fit).not.toEqual(whole.answer.fit);
    await bench.open([bad]);
    expect(bench.state.trouble).toMatch(/holds no NMEA 0183 sentence/);
    expect(bench.state.answered?.calibrated).toBe(without);
    await bench.putAllBack();
    expect(bench.state.answered?.calibrated).toMatchObject(withoutRows(whole));
  });

  it("eleven minutes on one tack are refused in words", async () => {
    const bench = new Bench(inThisThread());
    await bench.open([fileOf(oneTackLog())]);
    const answer = bench.state.answered?.calibrated.answer;
    expect(answer?.fit.status === "unsolved" && answer.fit.reason).toMatch(/all on starboard tack/);
    expect(bench.state.answered?.calibrated.tables).toBeUndefined();
  });
});

const BREAKDOWN = { message: "no room", filename: "", lineno: 0, colno: 0, error: undefined };

/** A worker that is none, but hears and says the same, later; what it says are plain values. (Node's copies of files have no names.) */
function workerHere(done: (task: Task, run: JobRun) => Promise<Ended>): WorkerLine {
  const soon = (work: () => void): void => void setTimeout(work, 0);
  const worker: WorkerLine = {
    onmessage: null,
    onerror: null,
    postMessage: (data) => soon(() => hears({ data })),
    terminate: () => {},
  };
  let hears: (event: { readonly data: unknown }) => void = () => {};
  const line = {
    postMessage: (said: unknown) => {
      const data: unknown = structuredClone(said);
      soon(() => worker.onmessage?.(new MessageEvent("message", { data })));
    },
    addEventListener: (_: "message", heard: typeof hears) => {
      hears = heard;
    },
  };
  serveTasks<Task, Ended>(line, done);
  return worker;
}

describe("in a worker that stays", () => {
  const files = [good];
  const boat = UNKNOWN_BOAT;

  it("the page gets what it shows, the files are those of the library, a log that is none is refused", async () => {
    const worker = stayingWorker<Task, Ended>(() => workerHere(new Holding().done));
    const { read, answer, file } = workshopOf(worker.ended);
    expect(await read({ files, boat }, {})).toEqual(summary);
    const shares: number[] = [];
    const run = { progress: (_: string, share: number) => void shares.push(share) };
    const wish = { files, boat, summary, leaveOut: {} };
    expect(await answer(wish, run)).toEqual(calibrated);
    expect(shares.filter((share) => share > 0).length).toBeGreaterThan(3);
    const named = { ...wish, calibrated, plotly: "", made: 0 } as const;
    for (const name of ANSWER_FILES)
      expect((await file({ ...named, name }, {})) === answerFiles(whole, "", 0)?.[name], name).toBe(true);
    await expect(read({ files: [bad], boat }, {})).rejects.toThrow(bad.name);
    worker.close();
  });

  it("holds logs and answer after something was called off, and begins anew where it broke down", async () => {
    let read = 0;
    const made: WorkerLine[] = [];
    const worker = stayingWorker<Task, Ended>(() => {
      const { done } = new Holding();
      const counted = (task: Task, run: JobRun): Promise<Ended> => {
        const progress = (what: string, share: number): void => {
          if (what.startsWith("reading") && share === 1) read += 1;
          run.progress?.(what, share);
        };
        return done(task, { ...run, progress });
      };
      made.push(workerHere(counted));
      return made.at(-1)!;
    });
    const { answer, ...workshop } = workshopOf(worker.ended);
    const seen = await workshop.read({ files, boat }, {});
    expect(read).toBe(1);
    const calledOff = new AbortController();
    const wish = { files, boat, summary: seen, leaveOut: { legs: [5] } };
    const first = answer(wish, {
      signal: calledOff.signal,
      progress: () => calledOff.abort(new Error("off")),
    });
    await expect(first).rejects.toThrow("off");
    expect(await answer({ ...wish, leaveOut: {} }, {})).toMatchObject(withoutRows(whole));
    expect([read, made.length]).toEqual([1, 1]);
    const lost = answer(wish, {});
    made[0]!.onerror?.(Object.assign(new Event("error"), BREAKDOWN));
    await expect(lost).rejects.toThrow("no room");
    expect(await answer({ ...wish, leaveOut: {} }, {})).toMatchObject(withoutRows(whole));
    expect([read, made.length]).toEqual([2, 2]);
    worker.close();
  });
});

describe("shear, day by day", () => {
  const DAY = 86_400;
  const track = (rows: readonly (readonly [time: number, angle: number])[]): WindTrack => {
    const column = Float64Array.from(rows, ([, angle]) => radians(angle));
    return {
      ...whole.answer.track,
      time: Float64Array.from(rows, ([time]) => time),
      tack: rows.map(([, angle]) => (angle > 0 ? "starboard" : "port")),
      kind: rows.map(() => "sailing"),
      angleAfter: column,
    };
  };

  it("is half of how unlike the tacks are, legs counting alike; angles off the wind count for nothing", () => {
    const days = anglesByDay(
      track([
        // starboard legs of 44° and 46°, the first twice as long; port of 41°
        [0, 44],
        [30, 44],
        [60, -41],
        [90, 46],
        [120, 150],
        [DAY, 40],
        [DAY + 30, -42],
        [2 * DAY, 40],
      ]),
    );
    expect(days.map(({ day }) => day)).toEqual(["1970-01-01", "1970-01-02"]);
    expect(days.map(({ starboard, port }) => [starboard.legs, port.legs])).toEqual([
      [2, 1],
      [1, 1],
    ]);
    expect(days[0]!.unlike).toBeCloseTo((45 - 41) / 2, 9);
    expect(days[1]!.unlike).toBeCloseTo((40 - 42) / 2, 9);
  });

  it("of one tack only there is nothing to tell", () => {
    expect(shearByDay(track([[0, 44]])).markup).toBe("");
  });
});

describe("legs and turns", () => {
  it("stand in the order of time, each once", () => {
    const items = daysOf(summary).flatMap(({ items }) => items);
    const { legs, turns } = summary.sailing;
    expect(items).toHaveLength(legs.length + turns.length);
    expect(items.map(({ start }) => start)).toEqual(
      [...legs, ...turns].map(({ start }) => start).toSorted((a, b) => a - b),
    );
    expect(new Set(items.map(({ name, more }) => name + more)).size).toBe(items.length);
    expect(daysOf(summary)).toHaveLength(1);
  });

  it("begin a day with its date where there are several", () => {
    const { sailing } = summary;
    const [first] = sailing.legs;
    const later = {
      ...first!,
      start: first!.start + 86_400,
      end: first!.end + 86_400,
      number: sailing.legs.length,
    };
    const two = { ...summary, sailing: { ...sailing, legs: [...sailing.legs, later] } };
    const days = daysOf(two);
    expect(days).toHaveLength(2);
    expect(days[1]!.day > days[0]!.day).toBe(true);
    const items = days.flatMap((day) => day.items);
    expect(new Set(items.map(({ name, more }) => name + more)).size).toBe(items.length);
  });

  it("tell the wind of a leg that counts, and of one left out that it is", () => {
    const answered = {
      files: [],
      summary,
      calibrated,
      leftOut: { legs: [], turns: [] },
      boat: UNKNOWN_BOAT,
      made: 0,
    };
    const leg = daysOf(summary)
      .flatMap(({ items }) => items)
      .find(({ what, place }) => what === "legs" && place === 4)!;
    expect(itemWords(leg, false, answered)).toMatch(/^counts; wind from \d{3}°, .* the leg before\.$/);
    expect(itemWords(leg, true, undefined)).toBe("left out.");
  });
});

describe("the boat form", () => {
  const fields = [...GROUPS, KEYED_IN].flatMap((group) => group.fields);
  const formed = (boat: Boat) => boatOfForm(fields, valuesOfBoat(fields, boat), { ...boatInFile(boat) });

  it("empty, it is a boat of which nothing is known", () => {
    const empty = Object.fromEntries(fields.map(({ path }) => [path, ""]));
    expect(boatOfForm(fields, empty, {})).toEqual({ boat: UNKNOWN_BOAT });
    expect(Object.values(valuesOfBoat(fields, UNKNOWN_BOAT)).every((value) => value === "")).toBe(true);
  });

  it("shows any boat and gives her back", () => {
    const number = fc.integer({ min: -40, max: 40 }).map((tenths) => tenths / 10);
    const computer = fc.record({
      table: fc.constantFrom("apparent", "true", "none"),
      corrects_heel: fc.boolean(),
      corrects_leeway: fc.boolean(),
    });
    const active = fc.oneof(
      fc.constantFrom("none", "unknown"),
      fc.record({
        vane: fc.record({ masthead_offset_deg: number, upwash_deg: number }),
        heel: fc.record({ zero_deg: number, sign: fc.constantFrom(1, -1) }),
        heel_model: fc.record({ full_heel_deg: number }),
      }),
    );
    const file = fc.record(
      {
        name: fc.string({ minLength: 1 }).filter((name) => name.trim() === name),
        mast_height_m: fc.integer({ min: 1, max: 99 }),
        wind_sensor_height_m: fc.integer({ min: 1, max: 99 }),
        wind_sensor_forward_m: number,
        computer,
        rig: fc.record({ foils: fc.boolean(), multihull: fc.boolean() }),
        steered_by: fc.constantFrom("sails", "display", "unknown"),
        heel_sensor_sign: fc.constantFrom("auto", 1, -1),
        variation_deg: number,
        active_settings: active,
        sources: fc.constantFrom({}, { heel: "XDR HEEL" }),
      },
      { requiredKeys: [] },
    );
    fc.assert(
      fc.property(file, (fieldsOfFile) => {
        const boat = boatFromFile(JSON.stringify(fieldsOfFile), "boat.json");
        expect(formed(boat)).toEqual({ boat });
      }),
      { numRuns: 200 },
    );
  });

  it.each([
    ["mast_height_m", "tall", /expected a number/],
    ["mast_height_m", "-3", /more than 0/],
    ["variation_deg", "200", /at most 180/],
    [`${ACTIVE}.anemometer.gain`, "0", /more than 0/],
  ])("%s of %s is refused at its field", (path, value, words) => {
    const values = { ...valuesOfBoat(fields, UNKNOWN_BOAT), [ACTIVE]: GIVEN, [path]: value };
    const found = boatOfForm(fields, values, {});
    expect("trouble" in found && found.trouble.path).toBe(path);
    expect("trouble" in found && found.trouble.words).toMatch(words);
  });

  it("takes a comma for a point, and tells a computer only where her table is told", () => {
    const typed = { ...valuesOfBoat(fields, UNKNOWN_BOAT), mast_height_m: " 17,5 " };
    const found = boatOfForm(fields, { ...typed, "computer.corrects_heel": "true" }, {});
    expect("boat" in found && found.boat).toEqual({
      ...UNKNOWN_BOAT,
      mastHeight: 17.5,
      windSensorHeight: 17.5,
    });
  });

  it("asks for sources only where a log has several of one quantity", () => {
    expect(sourceFields(undefined)).toEqual([]);
    const [one] = summary.recording.chosen;
    const other = { ...one!, source: { ...one!.source, name: "another" } };
    const two = { ...summary, recording: { ...summary.recording, others: [other] } };
    expect(sourceFields(two)).toMatchObject([{ path: `sources.${one!.source.quantity}` }]);
  });

  it("loads what it saves; a calibration counts as keyed in; other files are refused by name", () => {
    const boat = { ...UNKNOWN_BOAT, name: "Tern", variation: radians(3) };
    expect(boatOfFile(boatFileText(boat), "boat.json")).toEqual(boat);
    const none = { base: "sensors without corrections", active: noCorrections } as const;
    const calibration = calibrationOf(whole.answer, { ...boat, settings: none }, 0)!;
    const loaded = boatOfFile(calibrationFileText(calibration), "calibration.json");
    expect(loaded.name).toBe("Tern");
    if (whole.answer.fit.status !== "solved") throw new Error("the sail must be solved");
    expect(loaded.settings.active.vane.mastheadOffset).toBeCloseTo(
      whole.answer.fit.settings.vane.mastheadOffset,
      12,
    );
    expect(() => boatOfFile("[1]", "list.json")).toThrow(/list\.json: expected a JSON object/);
  });
});

/** A shelf in memory. */
function shelf(): Shelf & { readonly kept: Map<string, string> } {
  const kept = new Map<string, string>();
  return {
    kept,
    getItem: (name) => kept.get(name) ?? null,
    setItem: (name, value) => void kept.set(name, value),
    removeItem: (name) => void kept.delete(name),
  };
}

describe("what is kept from visit to visit", () => {
  it("the boat, and what was left out of a recording; never the log", async () => {
    const place = shelf();
    const { bench } = await answeredBench(place);
    const named = { ...UNKNOWN_BOAT, name: "Tern" };
    void bench.setBoat(named);
    void bench.leaveOutOrPutBack("legs", 3);
    void bench.leaveOutOrPutBack("turns", 1);
    const choices = choicesOn(() => place);
    expect(choices.boat()).toEqual(named);
    expect(choices.leftOut(summary)).toEqual({ legs: [3], turns: [1] });
    const other = { ...summary, recording: { ...summary.recording, files: ["other.nmea"] } };
    expect(choices.leftOut(other)).toBeUndefined();
    expect([...place.kept.values()].join().length).toBeLessThan(3000);
    bench.forget();
    expect(place.kept.size).toBe(0);
  });

  it("a calibration that is told to be kept, once however often; a full shelf is said", () => {
    const place = shelf();
    const choices = choicesOn(() => place);
    const file = { name: "calibration.json", text: "{}" };
    expect([choices.keepCalibration(file), choices.keepCalibration(file)]).toEqual([true, true]);
    expect(keptFilesOn(() => place).list()).toEqual([file]);
    choices.forget();
    expect(place.kept.size).toBe(0);
    const full = choicesOn(() => {
      throw new Error("full");
    });
    expect(full.keepCalibration(file)).toBe(false);
  });

  it("a demo's boat is not kept, and one's own is back with one's own log", async () => {
    const place = shelf();
    const own = { ...UNKNOWN_BOAT, name: "Tern" };
    choicesOn(() => place).keepBoat(own);
    const { workshop, pending } = slowWorkshop();
    const bench = new Bench(
      workshop,
      choicesOn(() => place),
    );
    expect(bench.state.boat).toEqual(own);
    void bench.openDemo(() => Promise.resolve({ file: good, boat: { ...UNKNOWN_BOAT, name: "Demo" } }));
    await settled();
    pending.at(-1)!.end();
    await settled();
    pending.at(-1)!.end();
    await settled();
    expect(bench.state.boat.name).toBe("Demo");
    void bench.setBoat({ ...UNKNOWN_BOAT, name: "Demo changed" });
    expect(choicesOn(() => place).boat()).toEqual(own);
    void bench.open([good]);
    expect(pending.at(-1)?.boat).toEqual(own);
  });

  it.each(["{", "[1, 2]", '{"mast_height_m": "high"}', "null", '[["a"], 3, ["b", null]]'])(
    "%s on the shelf is nothing kept",
    (text) => {
      const place = shelf();
      place.setItem("bothtacks: boat", text);
      place.setItem("bothtacks: left out", text);
      const choices = choicesOn(() => place);
      expect(choices.boat()).toBeUndefined();
      expect(choices.leftOut(summary)).toBeUndefined();
      choices.keepLeftOut(summary, { legs: [2], turns: [] });
    },
  );

  it("a browser without a shelf keeps nothing and complains of nothing", () => {
    const choices = choicesOn(() => {
      throw new Error("forbidden");
    });
    choices.keepBoat(UNKNOWN_BOAT);
    choices.keepLeftOut(summary, { legs: [1], turns: [] });
    choices.forget();
    expect(choices.boat()).toBeUndefined();
  });
});
