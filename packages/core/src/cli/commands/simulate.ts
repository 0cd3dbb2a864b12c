import { readText } from "../../node/readText.ts";
import { requireFileFree, writeFileWhole } from "../../node/writeWhole.ts";
import { scenarioFromFile } from "../../simulate/scenarioFile.ts";
import { linesOfSail } from "../../simulate/simulatedLog.ts";
import { simulatedSail } from "../../simulate/simulatedSail.ts";
import type { Command } from "../command.ts";

/** Lines are written in pieces of so many characters: some minutes of the log. */
const PIECE_LENGTH = 1 << 16;

/** The lines of a log, each ended as NMEA 0183 has it, in pieces; throws the signal's reason once aborted. */
function* piecesOf(lines: Iterable<string>, signal: AbortSignal): Generator<string, void, undefined> {
  let piece = "";
  for (const line of lines) {
    piece += `${line}\r\n`;
    if (piece.length < PIECE_LENGTH) continue;
    signal.throwIfAborted();
    yield piece;
    piece = "";
  }
  yield piece;
}

/** Writes the log of a simulated sail. */
export const simulate: Command = {
  shape: {
    name: "simulate",
    purpose: "writes the log of a simulated sail: a boat with known faults in a wind that wanders",
    operands: ["SCENARIO.json"],
    options: {
      out: { value: "FILE.nmea", required: true, meaning: "the log to be written" },
      replace: { meaning: "write over a file that is there" },
    },
  },

  async execute({ operands, options }, { print, signal }) {
    const path = operands[0] ?? "";
    const out = options.get("out") ?? "";
    const replace = options.has("replace");
    await requireFileFree(out, replace);
    const scenario = scenarioFromFile(await readText(path), path);
    const sail = simulatedSail(scenario);
    await writeFileWhole(out, piecesOf(linesOfSail(sail), signal), replace);
    print(`${out}: ${sail.truth.length} simulated seconds of ${path}.\n`);
  },
};
