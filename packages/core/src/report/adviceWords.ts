import type { Boat } from "../calibration/boat.ts";
import type { WordlessAnswer } from "./answer.ts";
import { counted, LEARNT } from "./format.ts";
import { amountText, type Doubt, intervalText, type SettingName, type SingleSetting } from "./settings.ts";
import { isWithinDoubt } from "./standsOut.ts";
import { type CorrectionTables, learntCells } from "./tables.ts";

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

const DOUBTS: Readonly<Record<Doubt, string>> = {
  "hardly beyond": "This is hardly more than its own doubt: see first whether another sail says the same.",
  "for the others":
    "By itself it is no more than its own doubt, but it belongs to what else is keyed in for this sensor.",
  "one day": "It rests on one day under sail, so that day's wind shear may be in it.",
};

function keyInSentence(setting: SingleSetting): string {
  const { name, estimate, unit, to, doubts } = setting;
  const doubt = intervalText(estimate, unit);
  const what =
    name === "leeway coefficient"
      ? `Set the leeway coefficient to ${amountText(estimate.value, unit)} (${doubt})${presently(setting)}.`
      : `Add ${amountText(estimate.value, unit)} (${doubt}) to ${to}${ASIDE[name] ?? ""}${presently(setting)}.`;
  return [what, ...doubts.map((one) => DOUBTS[one])].join(" ");
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

/** Both settings make one straight line of the boat speed. */
function speedTogether(settings: readonly SingleSetting[]): readonly string[] {
  const intercept = settings.find(({ name }) => name === "boat speed intercept");
  return intercept?.advice === "key in"
    ? [
        "Take the percentage of the boat speed first and add the knots after; key in both or neither, since each makes up for the other.",
      ]
    : [];
}

function tableSentence({ computer, cells, tableAdvice }: CorrectionTables): readonly string[] {
  if (computer.table === "none" || tableAdvice !== "key in") return [];
  const learnt = learntCells(cells);
  const entries = learnt
    .flatMap(({ angle, speed }) => [angle, speed])
    .filter(({ informed }) => informed >= LEARNT);
  const within = entries.filter(isWithinDoubt).length;
  const doubt =
    within === 0
      ? ""
      : ` Of these ${counted(entries.length, "entry", "entries")} of angle and speed, ${within} ${within === 1 ? "is" : "are"} no more than ${within === 1 ? "its" : "their"} own doubt; fill them in as well, so that neighbouring cells go together.`;
  return [
    `Fill the table over ${computer.table} wind speed and angle in the ${counted(learnt.length, "cell")} that the data support: add each entry to the reading that comes after the settings above, and leave what is blank or not learnt as it is.${doubt}`,
  ];
}

/** Whether the amounts replace what is keyed in, or come on top of it. */
const baseSentence = ({ base }: WordlessAnswer): string =>
  base === "sensors without corrections"
    ? "These amounts are counted from the bare sensors: each replaces what is keyed in now. Angles are positive to starboard."
    : "It is not known what was keyed in while this was recorded: each amount comes on top of what was keyed in then, if that still stands there. Angles are positive to starboard.";

/** What to key in, in the order in which it is done: boat speed, compass, leeway, then the wind. Never throws. */
export function keyInWords(answer: WordlessAnswer, tables: CorrectionTables): readonly string[] {
  const settings = tables.settings.filter(({ advice }) => advice === "key in");
  const speeds = settings.filter(({ name }) => name.startsWith("boat speed"));
  const others = settings.filter((setting) => !speeds.includes(setting));
  const deviation =
    tables.deviationAdvice === "key in"
      ? [
          `Key in the deviation card: it tells what to add to the heading reading, on ${tables.deviation.every(({ sailed }) => sailed) ? "each heading" : "the headings that were held"}, once the alignment (A) is set.`,
        ]
      : [];
  const sentences = [
    ...speeds.map(keyInSentence),
    ...oneGain(tables.settings),
    ...speedTogether(tables.settings),
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
    ? ["Leave alone whatever was not learnt; the amounts to key in reckon with that."]
    : [];
  const card =
    tables.deviationAdvice === "key in"
      ? []
      : [
          "Leave the compass deviation alone: on no heading does it ask for more than chance brings among so many.",
        ];
  const leeway =
    !computer.correctsLeeway && tables.tableAdvice === "key in"
      ? [
          "Enter no leeway: the computer on board does not reckon with it, and the table makes up for it instead.",
        ]
      : [];
  const table =
    computer.table !== "none" && tables.tableAdvice !== "key in"
      ? ["Leave the wind table alone: no entry asks for more than chance brings among so many."]
      : [];
  return [...alone, ...unlearnt, ...card, ...leeway, ...table];
}
