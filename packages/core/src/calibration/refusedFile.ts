/**
 * A file of ours (boat, calibration) that cannot be taken: which file, which field, what was expected, what stood there.
 *
 * @example
 * const refused = new RefusedFile("boat.json", "mast_height_m", "a number", '"tall"');
 * refused.message // 'boat.json: mast_height_m: expected a number, received "tall"'
 */
export class RefusedFile extends Error {
  override readonly name = "RefusedFile";

  /**
   * @param file name of the file, as the user gave it
   * @param field path of the field, `computer.table`; empty for the file as a whole
   * @param expected what may stand there, in words
   * @param received what stood there, in words
   */
  constructor(
    readonly file: string,
    readonly field: string,
    readonly expected: string,
    readonly received: string,
  ) {
    super(`${file}: ${field === "" ? "" : `${field}: `}expected ${expected}, received ${received}`);
  }
}

const LONGEST_SHOWN = 60;

/** A value of a file in a few printable characters. Never throws. */
export function shown(value: unknown): string {
  if (value === undefined) return "nothing";
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === "object" && value !== null) return "an object";
  const text = JSON.stringify(value) ?? String(value);
  return text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN)}…` : text;
}
