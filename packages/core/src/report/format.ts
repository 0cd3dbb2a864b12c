/** Numbers as a reader wants them: the one place where the library rounds. Nothing here throws; NaN reads "unknown". */

/** Half the width of a 95 % interval of a normal distribution, in standard deviations. */
export const HALF_WIDTH_95 = 1.96;

const UNKNOWN = "unknown";
const MINUS = "−";

/** A number with so many decimals, a true minus sign, and no sign on a zero. */
export function plain(value: number, decimals: number): string {
  if (!Number.isFinite(value)) return UNKNOWN;
  const digits = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(digits) !== 0 ? MINUS + digits : digits;
}

/** The same with a plus sign where positive, as an amount that is added. */
export function signed(value: number, decimals: number): string {
  const text = plain(value, decimals);
  return value > 0 && Number(value.toFixed(decimals)) !== 0 ? `+${text}` : text;
}

/** "−2.4° ± 0.6°": an amount with the half width of its 95 % interval. */
export function withInterval(value: number, sd: number, decimals: number, unit: string): string {
  if (!Number.isFinite(value)) return UNKNOWN;
  return `${signed(value, decimals)}${unit} ± ${plain(HALF_WIDTH_95 * sd, decimals)}${unit}`;
}

/** A direction as three figures, 000 to 359. */
export function threeFigures(direction: number): string {
  if (!Number.isFinite(direction)) return UNKNOWN;
  const whole = ((Math.round(direction) % 360) + 360) % 360;
  return String(whole).padStart(3, "0");
}

/** "2031-06-14 13:05 UTC" of seconds since 1970. */
export function clock(time: number): string {
  const date = new Date(time * 1000);
  return Number.isFinite(date.getTime())
    ? `${date.toISOString().slice(0, 16).replace("T", " ")} UTC`
    : "unknown time";
}

/** "13:05 UTC" of seconds since 1970. */
export const timeOfDay = (time: number): string => clock(time).slice(-9);

const DAY = 86_400;

/** How the times of a recording are told: by the clock, with its date where it lasts for a day and more. */
export const timesOf = ({ start, end }: { readonly start: number; readonly end: number }) =>
  end - start < DAY ? timeOfDay : clock;

/** "2 h 31 min", "48 s". */
export function duration(seconds: number): string {
  if (!Number.isFinite(seconds)) return UNKNOWN;
  if (seconds < 120) return `${Math.round(seconds)} s`;
  const minutes = Math.round(seconds / 60);
  if (minutes < 60) return `${minutes} min`;
  return `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}

/** "2 h 31 min of steady sailing, no motoring with the sails down, 20 min of anything else". */
export function sailedWords({
  sailing,
  motoring,
  other,
}: Readonly<Record<"sailing" | "motoring" | "other", number>>): string {
  const some = (seconds: number, what: string): string =>
    `${seconds > 0 ? `${duration(seconds)} of` : "no"} ${what}`;
  return listed([
    some(sailing, "steady sailing"),
    some(motoring, "motoring with the sails down"),
    some(other, "other time"),
  ]);
}

/** "1 leg", "5 legs", "12,345 lines". */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${grouped(count)} ${count === 1 ? one : many}`;

/** A whole number with its thousands apart. */
export const grouped = (count: number): string => String(count).replace(/\B(?=(\d{3})+$)/g, ",");

/** "apparentWindAngle" as "apparent wind angle". */
export const inWords = (name: string): string =>
  name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);

/** "a", "a and b", "a, b and c". */
export function listed(names: readonly string[]): string {
  return names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}

/** Names of files: up to three in full, of more the first and how many others. */
export const filesInWords = (names: readonly string[]): string =>
  names.length <= 3 ? listed(names) : `${names[0]} and ${names.length - 1} other logs`;

/** With a capital first letter, as a sentence begins. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** How much of a number came from the data rather than from what is usual, in words (see the informed share). */
export function informedInWords(informed: number): string {
  if (!(informed >= LEARNT)) return "not learnt";
  if (informed >= 0.9) return "from the data";
  return informed >= 0.75 ? "mostly from the data" : "partly from the data";
}

/** Below this informed share a number is closer to its prior than to the data, and is not printed. */
export const LEARNT = 0.5;

/** Numbers kept on one line with the unit or the interval that follows them, by spaces that do not break. */
export const unbroken = (text: string): string =>
  text.replace(/(\d|±) (?=(?:[%°±\d]|kn|h|min|s|deg·kn²\/deg)(?![a-z]))| (?=±)/g, "$1\u00a0");
