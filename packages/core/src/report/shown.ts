/** Characters that a terminal acts on rather than shows, and those that turn the direction of writing; line feeds stay. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
const ACTED_ON = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069]/g;

/**
 * Text from anywhere (names of files, fields of logs) as it may be written to a terminal: such characters by their codes, as JSON
 * writes them. Never throws.
 */
export const shown = (text: string): string =>
  text.replace(ACTED_ON, (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, "0")}`);
