import type { Metres } from "../../units.ts";
import { plain, signed } from "../format.ts";

/** What the depths in a log say of each other; NaN where they say nothing. */
export interface DepthChecks {
  /** The offset that is sent beside the depth (DPT). */
  readonly sent: Metres;
  /** Depth by DPT less depth by DBT, both counted from the transducer by their definition, and its spread. */
  readonly difference: Metres;
  readonly spread: Metres;
}

/** Depths nearer to each other than this are one. */
const SAME: Metres = 0.06;

function checkWords({ sent, difference, spread }: DepthChecks): readonly string[] {
  const offset = Number.isNaN(sent)
    ? "The log holds no offset beside its depths: they count from the transducer."
    : sent > 0
      ? `The log's offset is ${signed(sent, 2)} m, positive: with it depths count from the waterline.`
      : sent < 0
        ? `The log's offset is ${signed(sent, 2)} m, negative: with it depths count from the keel.`
        : "The log's offset is 0: depths count from the transducer.";
  if (Number.isNaN(difference)) return [offset];
  const shown = `${signed(difference, 2)} m (spread ${plain(spread, 2)} m)`;
  if (Math.abs(difference) <= SAME) return [offset, "DPT and DBT agree."];
  const holds =
    Math.abs(Math.abs(difference) - Math.abs(sent)) <= SAME
      ? ": one of them already holds the offset, which must not be added twice"
      : ": one of them holds an offset that is not sent";
  return [offset, `DPT is ${shown} beside DBT, though both should count from the transducer${holds}.`];
}

/** What soundings tell of the depth, in sentences. @param draught undefined where it was not told. Never throws. */
export function depthWords(
  { value, half }: { readonly value: Metres; readonly half: Metres },
  draught: Metres | undefined,
  checks: DepthChecks | undefined,
): readonly string[] {
  const surface =
    Math.abs(value) <= half
      ? `The depth already counts from the waterline, within ± ${plain(half, 2)} m.`
      : `Add ${signed(value, 2)} m ± ${plain(half, 2)} m to the depth shown to have the depth below the waterline.`;
  const keel =
    draught === undefined
      ? "Give draught_m to have the amount for the depth below the keel."
      : `Add ${signed(value - draught, 2)} m ± ${plain(half, 2)} m to have the depth below the keel (draught ${plain(draught, 2)} m): enter that where the instrument asks for an offset to the keel, with its sign.`;
  return [surface, keel, ...(checks ? checkWords(checks) : [])];
}

/**
 * Where depths count from, drawn in a few lines with the amount to add for each. @param offset added to what is shown, for the waterline. Never throws.
 */
export function depthSketch(offset: Metres, draught: Metres | undefined): readonly string[] {
  const amount = (value: Metres): string => `shown ${value < 0 ? "−" : "+"} ${plain(Math.abs(value), 2)} m`;
  const keel = draught === undefined ? "shown less the rest of the draught" : amount(offset - draught);
  return [
    `~~~~~~\\~~~~~~~~~~/~~~~~~  waterline: ${amount(offset)}   (offset positive)`,
    "       \\___[T]___/         transducer T: as shown if it counts from it   (offset 0)",
    "            | |",
    `            |_|            keel: ${keel}   (offset negative)`,
    "",
    "==========================  bottom",
  ];
}
