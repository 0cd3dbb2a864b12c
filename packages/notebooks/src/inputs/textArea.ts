import type { Input } from "../contract.ts";
import { element, labelled } from "./labelled.ts";

export interface TextAreaOptions {
  /** With the unit of each column, if it is a table. */
  readonly label: string;
  readonly initial: string;
  /** How many lines are seen at once; as many as are in it at first by default. */
  readonly lines?: number;
}

/** Lines typed or pasted in, as a table from a logbook or a spreadsheet. Never throws. */
export const textArea = ({ label, initial, lines }: TextAreaOptions): Input<string> => ({
  label,
  initial,
  accepts: () => true,
  draw: (place, change, _, asked) => {
    const rows = lines ?? initial.split("\n").length + 1;
    const control = element("textarea", { rows, spellcheck: "false", autocomplete: "off" });
    control.value = asked;
    control.addEventListener("input", () => change(control.value));
    place.append(labelled(label, control));
    return undefined;
  },
});
