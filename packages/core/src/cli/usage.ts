import { type CommandShape, callOf } from "./arguments.ts";

const INDENT = "  ";

/** The list of commands. Never throws. */
export function usage(shapes: readonly CommandShape[]): string {
  const width = Math.max(...shapes.map(({ name }) => name.length));
  const commands = shapes.map(({ name, purpose }) => `${INDENT}${name.padEnd(width)}  ${purpose}`);
  return [
    "bothtacks: makes the true wind of a boat's log agree on both tacks.",
    "",
    "bothtacks COMMAND …",
    "",
    ...commands,
    `${INDENT}${"help".padEnd(width)}  this list, or with a command's name how to call it`,
    "",
    "A log is a file of NMEA 0183 sentences, NMEA 2000 frames as text, Signal K deltas or columns (CSV),",
    "plain or gzip: which of them is told from what stands in it. The exit status is 0 when done, 1 when",
    "what was given cannot answer (the reason is on standard error), 2 when the command was called",
    "wrongly, 3 when compare found that something has moved.",
    "",
  ].join("\n");
}

/** How a command is called, and what each option means. Never throws. */
export function helpFor(shape: CommandShape): string {
  const options = Object.entries(shape.options).map(([name, { value, meaning }]) => ({
    call: value === undefined ? `--${name}` : `--${name} ${value}`,
    meaning,
  }));
  const width = Math.max(0, ...options.map(({ call }) => call.length));
  const lines = options.map(({ call, meaning }) => `${INDENT}${call.padEnd(width)}  ${meaning}`);
  return [callOf(shape), "", shape.purpose, ...(lines.length > 0 ? ["", ...lines] : []), ""].join("\n");
}
