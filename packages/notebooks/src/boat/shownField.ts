import { element } from "../inputs/labelled.ts";
import type { Field } from "./boatFields.ts";
import { defaultOf } from "./boatValues.ts";

type Control = HTMLInputElement | HTMLSelectElement;

/** A field as it stands on the page. */
export interface ShownField {
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

/** A field with its label, what it is for, and a place for what is wrong with it. */
export function shownField(field: Field, id: string): ShownField {
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

/** What stands in a control, as text; "" for nothing. */
export const valueOfControl = (control: Control): string =>
  control instanceof HTMLInputElement && control.type === "checkbox"
    ? control.checked
      ? "true"
      : ""
    : control.value;

/** Puts a text into a control; what is not "" ticks a box. */
export function fillControl(control: Control, value: string): void {
  if (control instanceof HTMLInputElement && control.type === "checkbox") control.checked = value !== "";
  else control.value = value;
}
