import type { Boat } from "../calibration/boat.ts";
import { counted, HALF_WIDTH_95, LEARNT } from "./format.ts";
import { amountText, intervalText, type SettingName, type SingleSetting } from "./settings.ts";
import { type CorrectionTables, learntCells } from "./tables.ts";
import type { WordlessAnswer } from "./words.ts";

/** What was keyed in while the log was recorded, where that is known and was anything. */
const presently = ({ present, unit }: SingleSetting): string =>
  Math.abs(present) > 0 ? `; ${amountText(present, unit)} was keyed in when this was recorded` : "";

/** The setting's own name, where "add to the reading" does not say it already. */
const ASIDE: Partial<Readonly<Record<SettingName, string>>> = {
  "boat speed intercept": " (intercept)",
  "compass alignment (A)": " (compass alignment, A)",
  "heel zero": " (heel zero)",
  "masthead offset": " (masthead offset)",
  "wind speed threshold": " (threshold)",
};

function keyInSentence(setting: SingleSetting): string {
  const { name, estimate, unit, to } = setting;
  const doubt = intervalText(estimate, unit);
  return name === "leeway coefficient"
    ? `Set the leeway coefficient to ${amountText(estimate.value, unit)} (${doubt})${presently(setting)}.`
    : `Add ${amountText(estimate.value, unit)} (${doubt}) to ${to}${ASIDE[name] ?? ""}${presently(setting)}.`;
}

const isGain = ({ name }: SingleSetting): boolean => name.startsWith("boat speed gain");

/** For instruments that hold one gain for both tacks. */
function oneGain(settings: readonly SingleSetting[]): readonly string[] {
  const gains = settings.filter((setting) => isGain(setting) && setting.advice === "key in");
  const mean = gains.reduce((sum, { estimate }) => sum + estimate.value, 0) / gains.length;
  return gains.length === 2
    ? [
        `Where the instrument holds one boat speed gain for both tacks, add ${amountText(mean, "percent")} instead.`,
      ]
    : [];
}

/** Whether the deviation card asks for more than its own interval anywhere. Never throws. */
export const deviationMatters = ({ deviation }: CorrectionTables): boolean =>
  deviation.some(
    ({ estimate, present }) =>
      estimate.informed >= LEARNT && Math.abs(estimate.value - present) > HALF_WIDTH_95 * estimate.sd,
  );

/** Whether the wind table asks for more than its own interval in any cell. */
const tableMatters = ({ cells }: CorrectionTables): boolean =>
  learntCells(cells).some(({ angle, speed }) =>
    [angle, speed].some(
      ({ value, sd, informed }) => informed >= LEARNT && Math.abs(value) > HALF_WIDTH_95 * sd,
    ),
  );

function tableSentence(tables: CorrectionTables): readonly string[] {
  const { computer, cells } = tables;
  if (computer.table === "none" || !tableMatters(tables)) return [];
  const entries = counted(learntCells(cells).length, "cell");
  return [
    `Fill the table over ${computer.table} wind speed and angle in the ${entries} that the data support; each entry is added to the reading after the settings above, and what is blank stays as it is.`,
  ];
}

/** Whether the amounts replace what is keyed in, or come on top of it. */
const baseSentence = ({ base }: WordlessAnswer): string =>
  base === "sensors without corrections"
    ? "These amounts are counted from the bare sensors: each replaces what is keyed in now. Angles are positive to starboard."
    : "It is not known what was keyed in while this was recorded: each amount comes on top of what is keyed in now. Angles are positive to starboard.";

/** What to key in, in the order in which it is done: boat speed, compass, leeway, then the wind. Never throws. */
export function keyInWords(answer: WordlessAnswer, tables: CorrectionTables): readonly string[] {
  const settings = tables.settings.filter(({ advice }) => advice === "key in");
  const speeds = settings.filter(({ name }) => name.startsWith("boat speed"));
  const others = settings.filter((setting) => !speeds.includes(setting));
  const deviation = deviationMatters(tables)
    ? [
        "Key in the deviation card, which holds what remains of the compass error on each heading once its alignment (A) is set.",
      ]
    : [];
  const sentences = [
    ...speeds.map(keyInSentence),
    ...oneGain(tables.settings),
    ...others.map(keyInSentence),
    ...deviation,
    ...tableSentence(tables),
  ];
  return sentences.length === 0 ? [] : [baseSentence(answer), ...sentences];
}

const aloneSentence = ({ name, unit, estimate, present }: SingleSetting): string =>
  `Leave the ${name} as it is: the data ask for a change of ${amountText(estimate.value - present, unit)}, no more than their own doubt of ${intervalText(estimate, unit)}.`;

/** What not to touch, and why. Never throws. */
export function leaveAloneWords(boat: Boat, tables: CorrectionTables): readonly string[] {
  const { computer } = boat;
  const alone = tables.settings.filter(({ advice }) => advice === "leave alone").map(aloneSentence);
  const unlearnt = tables.settings.some(({ advice }) => advice === "not learnt")
    ? ["Leave alone whatever was not learnt; the numbers above reckon with that."]
    : [];
  const card = deviationMatters(tables)
    ? []
    : ["Leave the compass deviation alone: on no heading is it larger than its own doubt."];
  const withTable = computer.table !== "none";
  const leeway =
    !computer.correctsLeeway && withTable
      ? [
          "Enter no leeway: the computer on board does not reckon with it, and the table makes up for it instead.",
        ]
      : [];
  const table =
    withTable && !tableMatters(tables)
      ? ["Leave the wind table alone: no entry is larger than its own doubt."]
      : [];
  return [...alone, ...unlearnt, ...card, ...leeway, ...table];
}
