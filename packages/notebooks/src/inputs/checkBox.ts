import type { Input } from "../contract.ts";
import { element } from "./labelled.ts";

/** Yes or no. Never throws. */
export const checkBox = ({
  label,
  initial = false,
}: {
  label: string;
  initial?: boolean;
}): Input<boolean> => ({
  label,
  initial,
  accepts: () => true,
  draw: (place, change, _, asked) => {
    const control = element("input", { type: "checkbox" });
    control.checked = asked;
    control.addEventListener("change", () => change(control.checked));
    place.append(element("label", { class: "option" }, control, label));
    return undefined;
  },
});
