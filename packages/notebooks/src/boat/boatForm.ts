import { element } from "../inputs/labelled.ts";
import type { Bench, BenchState } from "./bench.ts";
import { BOAT_FILE_NAME, boatFileText, boatOfFile } from "./boatFile.ts";
import { wordsOf } from "./messages.ts";
import { type Part, whenChanged } from "./part.ts";
import { Questions } from "./questions.ts";
import { save } from "./save.ts";

/** Where the form stands on the page. */
export const BOAT_FORM = "boat-file";

const TABLE_NAMES = { apparent: "apparent wind", true: "true wind", none: "no table" } as const;

/** What is known of the boat, in a line. */
function knownOf({ boat }: BenchState): string {
  const computer =
    boat.computerIs === "assumed" ? "computer not told" : `table: ${TABLE_NAMES[boat.computer.table]}`;
  const active =
    boat.settings.base === "unknown corrections" ? "active corrections not known" : "active corrections told";
  return `${boat.name}; ${computer}; ${active}`;
}

const quiet = (words: string): HTMLElement => element("p", { class: "quiet" }, words);

function button(label: string, press: () => void): HTMLButtonElement {
  const made = element("button", { type: "button" }, label);
  made.addEventListener("click", press);
  return made;
}

/** Loads the boat from a file, and saves her to one. */
function boatFiles(bench: Bench, say: (words: string) => void): HTMLElement {
  const chooser = element("input", {
    type: "file",
    class: "unseen",
    tabindex: -1,
    accept: ".json,application/json",
    "aria-label": "Boat file",
  });
  chooser.addEventListener("change", async () => {
    const [file] = [...(chooser.files ?? [])];
    chooser.value = "";
    if (file === undefined) return;
    say("");
    try {
      void bench.setBoat(boatOfFile(await file.text(), file.name));
    } catch (error) {
      say(wordsOf(error));
    }
  });
  return element(
    "p",
    { class: "doors" },
    button("Load a boat file", () => chooser.click()),
    button("Save as boat.json", () => save(BOAT_FILE_NAME, boatFileText(bench.state.boat))),
    chooser,
  );
}

/** Says what this browser keeps, and forgets it. */
function keeping(bench: Bench): HTMLElement {
  const forgotten = element("span", { class: "quiet", role: "status" });
  const forget = button("Forget what is kept here", () => {
    bench.forget();
    forgotten.textContent = "Forgotten: the boat, what was left out, and kept calibrations.";
  });
  const what =
    "This browser keeps the boat, what you leave out and calibrations that you told it to keep, never a log.";
  return element("p", { class: "doors" }, forget, element("span", { class: "quiet" }, what), forgotten);
}

const ALL_OPTIONAL =
  "What is known of the boat and of her computer. All of it may be left empty. What is told counts at once; it decides above all which numbers your computer can be given.";

const CALIBRATION_TOO =
  "A calibration file can be loaded too: then it counts as keyed in when the log was made.";

/** The boat file as a form, with loading and saving. */
export function boatForm(bench: Bench): Part {
  const trouble = element("p", { role: "alert", class: "field-error" });
  const say = (words: string): void => {
    trouble.textContent = words;
  };
  const questions = new Questions(bench.state.boat, (boat) => void bench.setBoat(boat), say);
  const known = element("span", { class: "quiet known" });
  const details = element(
    "details",
    { class: "boat-form", id: BOAT_FORM },
    element("summary", {}, "The boat file ", known),
    quiet(ALL_OPTIONAL),
    boatFiles(bench, say),
    quiet(CALIBRATION_TOO),
    trouble,
    questions.element,
    keeping(bench),
  );
  const ask = whenChanged(
    ({ answered }) => answered?.summary,
    (summary) => questions.ask(summary),
  );
  return {
    element: details,
    update: (state) => {
      known.textContent = knownOf(state);
      questions.show(state.boat);
      ask(state);
    },
  };
}
