import type { Input } from "../contract.ts";
import { element } from "./labelled.ts";

export interface ChoiceOptions<Option extends string> {
  readonly label: string;
  readonly options: readonly Option[];
  /** The first by default. */
  readonly initial?: NoInfer<Option>;
}

/**
 * One of a few words.
 *
 * @throws RangeError without options
 */
export function choice<const Option extends string>({
  label,
  options,
  initial = options[0],
}: ChoiceOptions<Option>): Input<Option> {
  if (initial === undefined) throw new RangeError(`choice "${label}": there must be an option`);
  return {
    label,
    initial,
    accepts: (option) => options.includes(option),
    draw: (place, change, _, asked) => {
      const radios = options.map((option) => {
        const control = element("input", { type: "radio", name: "option" });
        control.checked = option === asked;
        control.addEventListener("change", () => change(option));
        return element("label", { class: "option" }, control, option);
      });
      // a form of its own keeps the buttons of inputs apart that share the name
      const group = element("fieldset", {}, element("legend", {}, label), ...radios);
      place.append(element("form", {}, group));
      return undefined;
    },
  };
}
