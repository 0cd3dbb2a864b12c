import { settingsInForce } from "../../calibration/boatHistory.ts";
import { evidenceIn } from "../../judge/evidence.ts";
import { sensorStates } from "../../judge/sensorStates.ts";
import { requireFileFree, writeFileWhole } from "../../node/writeWhole.ts";
import { wholeBoatPage } from "../../report/page/wholeBoat.ts";
import { printedStates } from "../../report/stateText.ts";
import type { Command } from "../command.ts";
import { FOLDER_OPTION, folderNeeded } from "../givenFolder.ts";

/** Tells where each sensor of a boat stands. */
export const state: Command = {
  shape: {
    name: "state",
    purpose: "tells where each sensor stands: what was found, when, what it rests on, what is out of date",
    operands: [],
    options: {
      boat: FOLDER_OPTION,
      page: { value: "FILE", meaning: "write the same as one page of HTML" },
      replace: { meaning: "write over a page that is there" },
    },
  },

  async execute(given, { print }) {
    const page = given.options.get("page");
    const replace = given.options.has("replace");
    if (page !== undefined) await requireFileFree(page, replace);
    const { boat, history } = await folderNeeded(given, "state");
    const now = Date.now() / 1000;
    const states = sensorStates(evidenceIn(history), settingsInForce(history, boat, now));
    print(printedStates(states, boat.name));
    if (page === undefined) return undefined;
    await writeFileWhole(page, [wholeBoatPage(states, boat.name)], replace);
    print(`\nWritten to ${page}.\n`);
    return undefined;
  },
};
