import { type Boat, boatInFile, type LogsSummary } from "@bothtacks/core";
import { element } from "../inputs/labelled.ts";
import type { Bench, BenchState } from "./bench.ts";
import { ACTIVE, type Field, GIVEN, GROUPS, type Group, KEYED_IN, sourceFields } from "./boatFields.ts";
import { BOAT_FILE_NAME, boatFileText, boatOfFile } from "./boatFile.ts";
import { boatOfForm, defaultOf, type FieldTrouble, type Values, valuesOfBoat } from "./boatValues.ts";
import { wordsOf } from "./messages.ts";
import { type Part, whenChanged } from "./part.ts";
import { save } from "./save.ts";

type Control = HTMLInputElement | HTMLSelectElement;

/** A field as it stands on the page. */
interface Shown {
  readonly field: Field;
  readonly box: HTMLElement;
  readonly control: Control;
  readonly error: HTMLElement;
}

function controlOf({ kind, path }: Field): Control {
  if (kind === "flag") return element("input", { type: "checkbox" });
  if (kind === "words") return element("input", { type: "text", autocomplete: "off" });
  if (kind === "number")
    return element("input", {
      type: "text",
      inputmode: "decimal",
      autocomplete: "off",
      placeholder: defaultOf(path),
    });
  return element("select", {}, ...kind.map(([value, label]) => element("option", { value }, label)));
}

function shownField(field: Field, id: string): Shown {
  const control = controlOf(field);
  control.id = id;
  control.dataset.field = field.path;
  const hint = element("span", { class: "quiet hint", id: `${id}-hint` }, field.hint ?? "");
  const error = element("span", { class: "field-error", id: `${id}-error`, role: "alert" });
  if (field.hint !== undefined) control.setAttribute("aria-describedby", hint.id);
  const label = element("label", { for: id }, field.label);
  const parts =
    field.kind === "flag"
      ? [element("span", { class: "option" }, control, label)]
      : [label, control, ...(field.hint === undefined ? [] : [hint])];
  return { field, control, error, box: element("div", { class: "field" }, ...parts, error) };
}

const valueOfControl = (control: Control): string =>
  control instanceof HTMLInputElement && control.type === "checkbox"
    ? control.checked
      ? "true"
      : ""
    : control.value;

function fillControl(control: Control, value: string): void {
  if (control instanceof HTMLInputElement && control.type === "checkbox") control.checked = value !== "";
  else control.value = value;
}

/** The questions about the boat; what is answered counts at once. */
class Form {
  readonly element = element("div", { class: "questions" });
  private shown: readonly Shown[] = [];
  private readonly keyedIn: HTMLElement;
  private readonly sources = element("div", { class: "fields" });
  private readonly fixed: readonly Shown[];
  private sourcesShown: readonly Shown[] = [];
  private boat: Boat;
  private ids = 0;

  constructor(
    boat: Boat,
    private readonly changed: (boat: Boat) => void,
    private readonly trouble: (words: string) => void,
  ) {
    this.boat = boat;
    const groups = [...GROUPS, KEYED_IN].map((group) => this.group(group));
    this.fixed = groups.flatMap(({ fields }) => fields);
    this.keyedIn = groups.at(-1)!.box;
    groups.at(-2)!.box.append(this.sources);
    this.shown = this.fixed;
    this.element.append(...groups.map(({ box }) => box));
    this.element.addEventListener("change", () => this.take());
  }

  /** Shows another boat than the one that stands in the form. */
  show(boat: Boat): void {
    if (boat === this.boat) return;
    this.boat = boat;
    this.fill();
  }

  /** Asks which sources to take, where there are several. */
  ask(summary: LogsSummary | undefined): void {
    this.sourcesShown = this.fields(sourceFields(summary));
    this.sources.replaceChildren(...this.sourcesShown.map(({ box }) => box));
    this.shown = [...this.fixed, ...this.sourcesShown];
    this.fill();
  }

  private fields(fields: readonly Field[]): readonly Shown[] {
    return fields.map((field) => {
      this.ids += 1;
      return shownField(field, `boat-field-${this.ids}`);
    });
  }

  private group({ title, fields }: Group): { readonly box: HTMLElement; readonly fields: readonly Shown[] } {
    const shown = this.fields(fields);
    const box = element(
      "fieldset",
      {},
      element("legend", {}, title),
      element("div", { class: "fields" }, ...shown.map((one) => one.box)),
    );
    return { box, fields: shown };
  }

  private fill(): void {
    const values = valuesOfBoat(
      this.shown.map(({ field }) => field),
      this.boat,
    );
    for (const { field, control } of this.shown) fillControl(control, values[field.path] ?? "");
    this.mark(undefined);
    this.open(values);
  }

  /** Questions that depend on another's answer. */
  private open(values: Values): void {
    this.keyedIn.hidden = values[ACTIVE] !== GIVEN;
    for (const { field, control } of this.shown)
      if (field.path.startsWith("computer.corrects")) control.disabled = values["computer.table"] === "";
  }

  private take(): void {
    const values = Object.fromEntries(
      this.shown.map(({ field, control }) => [field.path, valueOfControl(control)]),
    );
    this.open(values);
    const fields = this.shown.map(({ field }) => field);
    const found = boatOfForm(fields, values, { ...boatInFile(this.boat) });
    this.mark("trouble" in found ? found.trouble : undefined);
    if ("trouble" in found) return;
    this.boat = found.boat;
    this.changed(found.boat);
  }

  private mark(trouble: FieldTrouble | undefined): void {
    for (const { field, control, error, box } of this.shown) {
      const isWrong = field.path === trouble?.path;
      control.setAttribute("aria-invalid", String(isWrong));
      if (isWrong) control.setAttribute("aria-errormessage", error.id);
      else control.removeAttribute("aria-errormessage");
      error.textContent = isWrong && trouble ? trouble.words : "";
      box.classList.toggle("wrong", isWrong);
    }
    const isShown = this.shown.some(({ field }) => field.path === trouble?.path);
    this.trouble(trouble && !isShown ? `${trouble.path}: ${trouble.words}` : "");
  }
}

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

/** The boat file as a form, with loading and saving. */
export function boatForm(bench: Bench): Part {
  const trouble = element("p", { role: "alert", class: "field-error" });
  const say = (words: string): void => {
    trouble.textContent = words;
  };
  const form = new Form(bench.state.boat, (boat) => void bench.setBoat(boat), say);
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
  const button = (label: string, press: () => void): HTMLButtonElement => {
    const made = element("button", { type: "button" }, label);
    made.addEventListener("click", press);
    return made;
  };
  const known = element("span", { class: "quiet known" });
  const forgotten = element("span", { class: "quiet", role: "status" });
  const details = element(
    "details",
    { class: "boat-form", id: BOAT_FORM },
    element("summary", {}, "The boat file ", known),
    element(
      "p",
      { class: "quiet" },
      "What is known of the boat and of her computer. All of it may be left empty. What is told counts at once; it decides above all which numbers your computer can be given.",
    ),
    element(
      "p",
      { class: "doors" },
      button("Load a boat file", () => chooser.click()),
      button("Save as boat.json", () => save(BOAT_FILE_NAME, boatFileText(bench.state.boat))),
      chooser,
    ),
    element(
      "p",
      { class: "quiet" },
      "A calibration file can be loaded too: then it counts as keyed in when the log was made.",
    ),
    trouble,
    form.element,
    element(
      "p",
      { class: "doors" },
      button("Forget what is kept here", () => {
        bench.forget();
        forgotten.textContent = "Forgotten: the boat, and what was left out.";
      }),
      element(
        "span",
        { class: "quiet" },
        "This browser keeps the boat and what you leave out for your next visit, never a log.",
      ),
      forgotten,
    ),
  );
  const ask = whenChanged(
    ({ answered }) => answered?.summary,
    (summary) => form.ask(summary),
  );
  return {
    element: details,
    update: (state) => {
      known.textContent = knownOf(state);
      form.show(state.boat);
      ask(state);
    },
  };
}
