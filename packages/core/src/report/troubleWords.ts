import type { Trouble, WatchedChannel } from "../sailing/trouble.ts";
import { degrees, knots, type Seconds } from "../units.ts";
import { capital, counted, listed, plain, timesOf } from "./format.ts";
import type { RecordedSailing } from "./recordingText.ts";

/** What the words are drawn from. */
type Troubled = Pick<RecordedSailing, "recording" | "legs" | "troubles">;

const QUANTITY: Readonly<Record<WatchedChannel, string>> = {
  awa: "the wind angle",
  aws: "the wind speed",
  stw: "the boat speed",
  heading: "the heading",
  heel: "the heel",
};

const SENSOR: Readonly<Record<WatchedChannel, string>> = {
  awa: "the wind vane",
  aws: "the anemometer",
  stw: "the paddle wheel",
  heading: "the compass",
  heel: "the heel sensor",
};

const LIKELY: Readonly<Partial<Record<WatchedChannel, string>>> = {
  awa: "as after a knock",
  heading: "as when a telephone or a loudspeaker lies beside it",
  heel: "as after a knock",
};

const when = ({ recording }: Troubled, time: Seconds): string => timesOf(recording)(time);

/** "from 13:42 to 13:55 UTC" */
const span = (sailed: Troubled, { start, end }: Trouble): string =>
  `from ${when(sailed, start).replace(" UTC", "")} to ${when(sailed, end)}`;

/** Whether a trouble was there from the first leg on, or to the last. */
const isFromStart = ({ legs }: Troubled, { start }: Trouble): boolean =>
  !legs.some((leg) => leg.end <= start);
const isToEnd = ({ legs }: Troubled, { end }: Trouble): boolean => !legs.some((leg) => leg.start >= end);

function remedyWords({ remedy, channel }: Trouble): string {
  if (remedy === "channel left out")
    return `that is most of the recording, so ${SENSOR[channel]} is left out altogether`;
  if (remedy === "nothing left out")
    return "there is hardly anything else, so the corrections count for the mean of the two; silence one of them and sail again";
  if (remedy === "set right") return "those readings are set right by that";
  return remedy === "seconds left out" ? "those seconds are left out" : "those minutes are left out";
}

const valueWords = ({ channel, size }: Trouble, decimals = 0): string =>
  channel === "aws" || channel === "stw"
    ? `${plain(knots(size), 1)} kn`
    : `${plain(degrees(size), decimals)}°`;

/** Frozen channels of one stretch of time; wind angle and wind speed often freeze together. */
const frozenWords = (sailed: Troubled, together: readonly Trouble[]): string => {
  const [first] = together;
  const names = capital(listed(together.map(({ channel }) => QUANTITY[channel])));
  return `${names} stood still at ${listed(together.map((one) => valueWords(one)))} ${span(sailed, first!)} while the boat moved: ${remedyWords(first!)}.`;
};

/** By how much an angle read otherwise, and to which side. */
function otherwise({ channel, size }: Trouble): string {
  const amount = `${plain(Math.abs(degrees(size)), 1)}°`;
  if (channel === "heading") return `${amount} ${size > 0 ? "more" : "less"}`;
  return `${amount} further to ${size > 0 ? "starboard" : "port"}`;
}

/** What became of a side: "what was sailed from then on is left out". */
const sideWords = ({ remedy }: Trouble, when: string): string =>
  remedy === "set right"
    ? `its readings ${when} are set right by that`
    : `what was sailed ${when} is left out`;

function turnedWords(sailed: Troubled, trouble: Trouble): string {
  const sensor = SENSOR[trouble.channel];
  const likely = LIKELY[trouble.channel] ?? "as after a knock";
  const counts = `the corrections count for ${sensor} as it was`;
  if (isToEnd(sailed, trouble))
    return `From ${when(sailed, trouble.start)} on ${sensor} read ${otherwise(trouble)} than before, ${likely}: ${sideWords(trouble, "from then on")}, and ${counts} before. Look after it, and sail again.`;
  if (isFromStart(sailed, trouble))
    return `Up to ${when(sailed, trouble.end)} ${sensor} read ${otherwise(trouble)} than afterwards, ${likely}: ${sideWords(trouble, "up to then")}, and ${counts} afterwards.`;
  return `${capital(sensor)} read ${otherwise(trouble)} ${span(sailed, trouble)} than in the rest of the recording, ${likely}: ${remedyWords(trouble)}.`;
}

function troubleWords(sailed: Troubled, trouble: Trouble): string {
  const sensor = capital(SENSOR[trouble.channel]);
  const times = span(sailed, trouble);
  switch (trouble.kind) {
    case "frozen":
      return frozenWords(sailed, [trouble]);
    case "stopped":
      return `${sensor} stood at 0 ${times} while the boat went on, probably weed: ${remedyWords(trouble)}.`;
    case "fouled":
      return `${sensor} read ${plain(100 * (1 - trouble.size), 0)} % low ${times}, probably weed: ${remedyWords(trouble)}.`;
    case "turned":
      return turnedWords(sailed, trouble);
    case "mixed":
      return `Two sensors told ${QUANTITY[trouble.channel]} under one name ${times}, ${valueWords(trouble, 1)} apart: ${remedyWords(trouble)}.`;
    case "spikes":
      return `${capital(QUANTITY[trouble.channel])} struck far out in ${counted(trouble.size, "second")} ${times}: ${remedyWords(trouble)}.`;
  }
}

/** Freezes that begin and end so near to each other are told together. */
const TOGETHER: Seconds = 15;

const isTogether = (one: Trouble, other: Trouble): boolean =>
  one.kind === "frozen" &&
  other.kind === "frozen" &&
  one.remedy === other.remedy &&
  Math.abs(one.start - other.start) <= TOGETHER &&
  Math.abs(one.end - other.end) <= TOGETHER;

/**
 * What happened to sensors and what was done, a full sentence for each, in the order of time.
 *
 * @returns none where nothing happened. Never throws.
 */
export function sensorTroubleWords(sailed: Troubled): readonly string[] {
  const { troubles = [] } = sailed;
  return troubles.flatMap((trouble, place) => {
    if (troubles.slice(0, place).some((one) => isTogether(one, trouble))) return [];
    const together = troubles.filter((one) => one === trouble || isTogether(trouble, one));
    return [together.length > 1 ? frozenWords(sailed, together) : troubleWords(sailed, trouble)];
  });
}
