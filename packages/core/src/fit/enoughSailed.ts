import type { LegRow } from "../sailing/legRow.ts";
import type { UnsolvedBoatFit } from "./boatFit.ts";
import type { RecordingChannels } from "./fitContext.ts";

/** s. Less than this on a tack says nothing that the wind's own wandering would not drown; a choice. */
const LEAST_SECONDS_ON_A_TACK = 240;

/** Changes of tack from one row to the next; with fewer, one shift of the wind decides all. */
const LEAST_CHANGES = 2;

const minutes = (seconds: number): string => {
  const rounded = Math.round(seconds / 60);
  if (rounded < 1 && seconds > 0) return `${Math.round(seconds)} seconds`;
  return rounded === 1 ? "1 minute" : `${rounded} minutes`;
};

const secondsOn = (rows: readonly LegRow[], tack: LegRow["tack"]): number =>
  rows.reduce((sum, row) => sum + (row.tack === tack ? row.duration : 0), 0);

/** Those at turns that are left out compare nothing. */
function changesOfTack(rows: readonly LegRow[]): number {
  let changes = 0;
  rows.forEach((row, index) => {
    const before = rows[index - 1];
    if (before && before.tack !== row.tack && before.turnsLeftOut === row.turnsLeftOut) changes++;
  });
  return changes;
}

type Lacking = Pick<UnsolvedBoatFit, "reason" | "confounded">;

const WIND_ACROSS_TACKS = ["vane.mastheadOffset", "vane.upwash", "compass.a", "heel.zero"] as const;

/**
 * Why rows cannot calibrate the wind, in words; undefined where they can. Wind must have been seen from both tacks, and
 * more than once: a masthead offset, upwash and a shift of the wind look alike from one (M55).
 *
 * @param rows in time order
 * @returns a sentence for the navigator and the parameters that cannot be told apart. Never throws.
 */
export function enoughSailed(rows: readonly LegRow[], channels: RecordingChannels): Lacking | undefined {
  const withWind = rows.filter(({ mean }) => mean.aws > 0 && !Number.isNaN(mean.awa));
  const sailing = withWind.filter(({ kind }) => kind === "sailing");
  const lacking = (reason: string): Lacking => ({ reason, confounded: WIND_ACROSS_TACKS });
  if (withWind.length === 0) {
    return lacking("Nothing was found that was sailed or motored steadily with apparent wind in the log.");
  }
  if (!channels.gps && !channels.paddle) {
    return lacking(
      "The log holds neither boat speed nor a usable velocity over ground, so there is no true wind.",
    );
  }
  if (!channels.gps && !channels.compass) {
    return lacking("The log holds neither a compass nor a course over ground, so the wind has no direction.");
  }
  const starboard = secondsOn(sailing, "starboard");
  const port = secondsOn(sailing, "port");
  const [few, many] = starboard < port ? (["starboard", "port"] as const) : (["port", "starboard"] as const);
  const [least, most] = [Math.min(starboard, port), Math.max(starboard, port)];
  if (least < LEAST_SECONDS_ON_A_TACK) {
    const sailed = least === 0 ? `all on ${many} tack` : `but only ${minutes(least)} on ${few} tack`;
    return lacking(
      `${minutes(least + most)} of steady sailing were found, ${sailed}: with the wind seen from one side only, a masthead offset, ` +
        "upwash and the wind's own shifts cannot be told apart.",
    );
  }
  if (changesOfTack(sailing) < LEAST_CHANGES) {
    return lacking(
      sailing.some(({ turnsLeftOut = 0 }) => turnsLeftOut > 0)
        ? "Of the turns from one tack to the other, fewer than two are not left out: a shift of the wind in that moment would pass for an error of the sensors."
        : "She changed tack only once: a shift of the wind in that moment would pass for an error of the sensors.",
    );
  }
  return undefined;
}
