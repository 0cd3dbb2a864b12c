import type { Input } from "../contract.ts";
import { element, labelled } from "./labelled.ts";

export interface NumberBoxOptions {
  /** With the unit. */
  readonly label: string;
  readonly initial: number;
  readonly from?: number;
  readonly to?: number;
}

/** What a box takes, in words. */
const expected = (from: number | undefined, to: number | undefined): string => {
  const [low, high] = [from, to].map((limit) => String(limit).replace("-", "−"));
  if (from !== undefined && to !== undefined) return `a number from ${low} to ${high}`;
  if (from !== undefined) return `a number of at least ${low}`;
  return to !== undefined ? `a number of at most ${high}` : "a number";
};

/** A number typed in; what is no number within the range is refused in words and changes nothing. Never throws. */
export const numberBox = ({ label, initial, from, to }: NumberBoxOptions): Input<number> => ({
  label,
  initial,
  accepts: (value) => !(value < (from ?? value) || value > (to ?? value)),
  draw: (place, change, _, asked) => {
    const range = { min: from ?? false, max: to ?? false };
    const control = element("input", { type: "number", step: "any", required: true, ...range });
    control.value = String(asked);
    const refused = element("span", { class: "refused", role: "status" });
    let last = asked;
    control.addEventListener("input", () => {
      const isGood = control.validity.valid;
      control.setAttribute("aria-invalid", String(!isGood));
      if (isGood) last = control.valueAsNumber;
      refused.textContent = isGood
        ? ""
        : `Expected ${expected(from, to)}; the page goes on with ${String(last).replace("-", "−")}.`;
      if (isGood) change(last);
    });
    place.append(labelled(label, control), refused);
    return undefined;
  },
});
