import { UNKNOWN_BOAT } from "../../calibration/boatFile.ts";
import { correctedLog } from "../../job/correctedLog.ts";
import { logFile } from "../../node/logFile.ts";
import { requireFileFree, writeFileWhole } from "../../node/writeWhole.ts";
import { correctedCsvHeader, correctedCsvLine } from "../../report/correctedCsv.ts";
import { correctedNmea0183 } from "../../report/correctedNmea0183.ts";
import type { LoggedSecond } from "../../sailing/loggedSecond.ts";
import type { Command } from "../command.ts";
import { InputFailure, UsageFailure } from "../failures.ts";
import { COLUMNS_OPTION, columnsOfLogs } from "../givenColumns.ts";
import { BOAT_OPTIONS, boatOfLog, calibrationAt } from "../givenFiles.ts";
import { progressLine } from "../progressLine.ts";

type Pieces = AsyncGenerator<string, void, undefined>;
type North = "true" | "magnetic";

async function* csvOf(seconds: AsyncIterable<LoggedSecond>, directionsAre: North): Pieces {
  yield correctedCsvHeader(directionsAre);
  for await (const second of seconds) yield correctedCsvLine(second);
}

/** Sentences end as NMEA 0183 has it. */
async function* nmea0183Of(seconds: AsyncIterable<LoggedSecond>, directionsAre: North): Pieces {
  for await (const second of seconds)
    yield correctedNmea0183(second, directionsAre)
      .map((sentence) => `${sentence}\r\n`)
      .join("");
}

/** What may be written: by which option, and how. */
const OUTPUTS = [
  ["out", csvOf],
  ["nmea", nmea0183Of],
] as const;

/** Recomputes the true wind of a log with a calibration. */
export const apply: Command = {
  shape: {
    name: "apply",
    purpose: "recomputes the true wind of a log with a calibration, one row a second",
    operands: ["CALIBRATION", "LOG"],
    options: {
      out: { value: "FILE", meaning: "the CSV file to write" },
      nmea: {
        value: "FILE",
        meaning:
          "the NMEA 0183 log to write, for replay: ZDA, RMC, HDT, HDG, VHW, XDR, MWV R (apparent), MWV T and MWD (wind over the water), all corrected",
      },
      ...BOAT_OPTIONS,
      ...COLUMNS_OPTION,
      replace: { meaning: "write over a file that is there" },
    },
  },

  async execute(given, { print, progress, signal }) {
    const [calibrationPath = "", logPath = ""] = given.operands;
    const outputs = OUTPUTS.flatMap(([option, piecesOf]) => {
      const path = given.options.get(option);
      return path === undefined ? [] : [{ path, piecesOf }];
    });
    if (outputs.length === 0) throw new UsageFailure("apply: --out FILE is missing, or --nmea FILE");
    if (outputs.length > 1 && outputs[0]!.path === outputs[1]!.path)
      throw new UsageFailure("apply: --out and --nmea must name two files");
    const replace = given.options.has("replace");
    const calibration = await calibrationAt(calibrationPath);
    const boat = await boatOfLog(given, { ...calibration.boat, settings: UNKNOWN_BOAT.settings }, [logPath]);
    const log = { ...(await logFile(logPath)), ...(await columnsOfLogs(given)) };
    for (const { path } of outputs) await requireFileFree(path, replace);
    const line = progressLine(progress);
    const run = { progress: line.show, signal };
    try {
      const corrected = await correctedLog(log, calibration, boat, run);
      if (corrected.status === "refused") throw new InputFailure(`${logPath}: ${corrected.reason}`);
      const { seconds, directionsAre, notes } = corrected;
      for (const { path, piecesOf } of outputs)
        await writeFileWhole(path, piecesOf(seconds, directionsAre), replace);
      line.clear();
      for (const note of notes) print(`${note}\n`);
      for (const { path } of outputs)
        print(`${path}: true wind of ${logPath}, directions ${directionsAre}.\n`);
    } finally {
      line.clear();
    }
  },
};
