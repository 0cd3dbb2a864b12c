import { type Boat, boatInFile } from "@bothtacks/core";
import { element } from "../inputs/labelled.ts";
import { ACTIVE, type Field, GIVEN, GROUPS, type Group, KEYED_IN, sourceFields } from "./boatFields.ts";
import { boatOfForm, type FieldTrouble, type Values, valuesOfBoat } from "./boatValues.ts";
import { fillControl, type ShownField, shownField, valueOfControl } from "./shownField.ts";
import type { LogsSeen } from "./workshop.ts";

/** The questions about the boat; what is answered counts at once. */
export class Questions {
  readonly element = element("div", { class: "questions" });
  private shown: readonly ShownField[] = [];
  private readonly keyedIn: HTMLElement;
  private readonly sources = element("div", { class: "fields" });
  private readonly fixed: readonly ShownField[];
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
  ask(summary: LogsSeen | undefined): void {
    const asked = this.fields(sourceFields(summary));
    this.sources.replaceChildren(...asked.map(({ box }) => box));
    this.shown = [...this.fixed, ...asked];
    this.fill();
  }

  private fields(fields: readonly Field[]): readonly ShownField[] {
    return fields.map((field) => {
      this.ids += 1;
      return shownField(field, `boat-field-${this.ids}`);
    });
  }

  private group({ title, fields }: Group): {
    readonly box: HTMLElement;
    readonly fields: readonly ShownField[];
  } {
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
    // what is being typed just now stays
    for (const { field, control } of this.shown)
      if (control !== document.activeElement) fillControl(control, values[field.path] ?? "");
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
