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

/** An amount that is negative, or beyond the draught, is no transducer's place. */
function oddWords(value: Metres, half: Metres, draught: Metres | undefined): readonly string[] {
  if (value < -half)
    return [
      "Key in nothing yet: the depth shown is more than the sounding: it counts from above the waterline, which no transducer does. See that soundings and readings stand in their own columns, and what offset stands in the instrument already.",
    ];
  return draught !== undefined && value > draught + half
    ? [
        "Key in nothing yet: the amount is more than the draught, and no transducer sits below the keel: see what offset stands in the instrument already; with a depth that counts from the keel it would be the draught.",
      ]
    : [];
}

/** What soundings tell of the depth, in sentences. @param draught undefined where it was not told. Never throws. */
export function depthWords(
  { value, half }: { readonly value: Metres; readonly half: Metres },
  draught: Metres | undefined,
  checks: DepthChecks | undefined,
): readonly string[] {
  const surface =
    Math.abs(value) <= half
      ? `The depth shown already counts from the waterline, within ± ${plain(half, 2)} m.`
      : `Add ${signed(value, 2)} m ± ${plain(half, 2)} m to the depth shown to have the depth below the waterline.`;
  const keel =
    draught === undefined
      ? "Give draught_m to have the amount for the depth below the keel."
      : Math.abs(value - draught) <= half
        ? `The depth shown already counts from the keel, within ± ${plain(half, 2)} m (draught ${plain(draught, 2)} m).`
        : `Add ${signed(value - draught, 2)} m ± ${plain(half, 2)} m to have the depth below the keel (draught ${plain(draught, 2)} m).`;
  const entry =
    "Amounts come on top of the offset that stands in the instrument: enter the sum, with its sign; one of the two, not both.";
  return [...oddWords(value, half, draught), surface, keel, entry, ...(checks ? checkWords(checks) : [])];
}

/**
 * Where depths count from, drawn in a few lines with the amount to add for each. @param offset added to what is shown, for the waterline. Never throws.
 */
export function depthSketch(offset: Metres, draught: Metres | undefined): readonly string[] {
  const amount = (value: Metres): string => `shown ${value < 0 ? "−" : "+"} ${plain(Math.abs(value), 2)} m`;
  const keel = draught === undefined ? "give draught_m" : amount(offset - draught);
  return [
    `~~~~~~\\~~~~~~~~~~/~~~~~~  from the waterline: ${amount(offset)}`,
    "       \\___[T]___/         T: the transducer, between the two",
    "            | |",
    `            |_|            from the keel: ${keel}`,
    "",
    "==========================  bottom",
  ];
}
