import { mkdtemp } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import * as core from "@bothtacks/core";
import * as node from "@bothtacks/core/node";
import * as physics from "@bothtacks/core/physics";
import * as readers from "@bothtacks/core/readers";
import { goodLog, type NamedBytes, oneTackLog } from "./boatLogs.ts";

async function* chunksOf(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield bytes;
}

const logOf = ({ name, bytes }: NamedBytes): core.LogSource => ({
  name,
  bytes: bytes.length,
  chunks: { [Symbol.asyncIterator]: () => chunksOf(bytes) },
});

/** When the calibration of the examples was made, s since 1970. */
const MADE = 1_790_000_000;

/** The names that examples may use besides those that the library exports: what `docs/examples.md` says they are. */
export async function exampleNames(): Promise<Readonly<Record<string, unknown>>> {
  const [log, shortLog] = [logOf(goodLog()), logOf(oneTackLog())];
  const boat = core.UNKNOWN_BOAT;
  const summary = await core.summariseLogs([log], boat);
  const calibrated = core.answerOf(summary, boat);
  const { answer, rows, tables } = calibrated;
  const scenario = core.drawScenario(7, { seconds: 900 });
  const sail = core.simulatedSail(scenario);
  const [block] = core.secondsOfSail(sail);
  const calibration = core.calibrationOf(answer, boat, MADE);
  if (answer.fit.status !== "solved" || calibration === undefined)
    throw new Error("exampleNames: the log of the examples must be solved");
  return {
    ...core,
    ...physics,
    ...readers,
    ...node,
    log,
    shortLog,
    chunks: [goodLog().bytes],
    chunk: goodLog().bytes,
    reader: new core.Nmea0183Reader({ file: "log.nmea" }),
    use: () => {},
    boat,
    summary,
    calibrated,
    answer,
    rows,
    tables,
    fit: answer.fit,
    calibration,
    scenario,
    sail,
    block,
    folder: await mkdtemp(join(tmpdir(), "bothtacks-examples-")),
  };
}

/** `expression // expected`: what a line of an example says of itself; undefined for other lines. */
export function claimOf(
  line: string,
): { readonly expression: string; readonly expected: string } | undefined {
  const found = line.match(/^(?!\s*\/\/)(.*[^;\s])\s+\/\/ (.+)$/);
  return found?.[1] === undefined || found[2] === undefined
    ? undefined
    : { expression: found[1], expected: found[2] };
}

/** An example as a function's body: each line that says its value hands both to `claim`. */
const bodyOf = (example: string): string =>
  example
    .split("\n")
    .map((line) => {
      const claim = claimOf(line);
      return claim ? `claim((${claim.expression}), (${claim.expected}));` : line;
    })
    .join("\n");

/** Runs an example; `claim` is told each value with the one that the example says it has. */
export async function runExample(
  example: string,
  names: Readonly<Record<string, unknown>>,
  claim: (actual: unknown, expected: unknown) => void,
): Promise<void> {
  const keys = Object.keys(names);
  const AsyncFunction = Object.getPrototypeOf(async () => {}).constructor as FunctionConstructor;
  // a block of its own, so that an example may name what it makes as it likes
  const run = new AsyncFunction("claim", ...keys, `"use strict"; { ${bodyOf(example)}\n }`);
  await run(claim, ...keys.map((key) => names[key]));
}
