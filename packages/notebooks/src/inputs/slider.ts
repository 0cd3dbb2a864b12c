import { plain } from "@bothtacks/core/page";
import type { Input } from "../contract.ts";
import { element, labelled } from "./labelled.ts";

export interface SliderOptions {
  readonly label: string;
  /** Stands behind the number: "kn", "°"; empty by default. */
  readonly unit?: string;
  readonly from: number;
  readonly to: number;
  /** 1 by default. */
  readonly step?: number;
  readonly initial: number;
  /** The value in words; by default the number with the step's decimals and the unit. */
  readonly inWords?: (value: number) => string;
}

const decimalsOf = (step: number): number => String(step).split(".")[1]?.length ?? 0;

function checked({ label, from, to, step = 1, initial }: SliderOptions): void {
  if (!(from < to)) throw new RangeError(`slider "${label}": from must be below to, not ${from} and ${to}`);
  if (!(step > 0)) throw new RangeError(`slider "${label}": step must be positive, not ${step}`);
  if (!(initial >= from && initial <= to))
    throw new RangeError(`slider "${label}": initial must lie between ${from} and ${to}, not ${initial}`);
}

/**
 * A number chosen along a line, by pointer or arrow keys.
 *
 * @throws RangeError where the range is empty, the step not positive, or the initial value outside
 */
export function slider(options: SliderOptions): Input<number> {
  checked(options);
  const { label, unit = "", from, to, step = 1, initial } = options;
  const gap = /^[a-z%]/i.test(unit) ? "\u00a0" : "";
  const inWords = options.inWords ?? ((value) => plain(value, decimalsOf(step)) + gap + unit);
  return {
    label,
    initial,
    accepts: (value) => value >= from && value <= to,
    draw: (place, change, _, asked) => {
      const control = element("input", { type: "range", min: from, max: to, step });
      const shown = element("output", { "aria-hidden": "true" });
      const say = (value: number): void => {
        shown.textContent = inWords(value);
        control.setAttribute("aria-valuetext", inWords(value));
      };
      control.value = String(asked);
      say(asked);
      control.addEventListener("input", () => {
        say(control.valueAsNumber);
        change(control.valueAsNumber);
      });
      place.append(labelled(label, control, shown));
      return undefined;
    },
  };
}
