import type { Input } from "../contract.ts";
import { element, labelled } from "./labelled.ts";

/** A line of text. Never throws. */
export const textBox = ({ label, initial = "" }: { label: string; initial?: string }): Input<string> => ({
  label,
  initial,
  accepts: () => true,
  draw: (place, change, _, asked) => {
    const control = element("input", { type: "text" });
    control.value = asked;
    control.addEventListener("input", () => change(control.value));
    place.append(labelled(label, control));
    return undefined;
  },
});
