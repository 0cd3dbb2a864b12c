/** An element with attributes and children; what is text stays text. */
export function element<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  attributes: Readonly<Record<string, string | number | boolean>> = {},
  ...children: readonly (Node | string)[]
): HTMLElementTagNameMap[Tag] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes))
    if (value !== false) made.setAttribute(name, value === true ? "" : String(value));
  made.append(...children);
  return made;
}

/** A sign or a unit stays with the word before it: "(east +)", "Heading, °". */
const withItsSign = (label: string): string => label.replace(/ (?=[+−]\)|[°%]|kn$)/g, "\u00a0");

/** A control inside its label, so that they belong together however many share the words. */
export const labelled = (label: string, ...controls: readonly Node[]): HTMLLabelElement =>
  element(
    "label",
    { class: "labelled" },
    element("span", { class: "label" }, withItsSign(label)),
    ...controls,
  );
