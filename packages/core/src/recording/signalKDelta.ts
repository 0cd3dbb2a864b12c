import { possibleValue, QUANTITY_BOUNDS } from "./quantityBounds.ts";
import { SIGNAL_K_PATHS, type SignalKPart } from "./signalKPaths.ts";
import { isoTime, TimeText, type ToldTime } from "./timeText.ts";

/** One number of an update, in SI units and radians. */
export interface SignalKValue {
  readonly part: SignalKPart;
  readonly value: number;
}

/** What one source told at one time. */
export interface SignalKUpdate {
  readonly source: string;
  readonly time: ToldTime | undefined;
  readonly values: readonly SignalKValue[];
}

/** What a piece of JSON proved to be: what a vessel told, who the boat is, something else, or no message at all. */
export type SignalKMessage =
  | { readonly kind: "delta"; readonly context: string | undefined; readonly updates: readonly unknown[] }
  | { readonly kind: "hello"; readonly self: string }
  | { readonly kind: "other" }
  | { readonly kind: "faulty"; readonly expected: string };

/** Longest text that is a time, and longest name of a source that is kept. */
const LONGEST_TIME = 40;
const LONGEST_NAME = 60;

type Fields = Readonly<Record<string, unknown>>;

const isFields = (value: unknown): value is Fields =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** A property of its own, whatever its name. */
const property = (fields: unknown, name: string): unknown =>
  isFields(fields) && Object.hasOwn(fields, name) ? fields[name] : undefined;

const isMissing = (value: unknown): value is null | undefined => value === undefined || value === null;

/**
 * What a message of a Signal K stream is, from what JSON made of it. Never throws.
 *
 * @see Signal K specification 1.8.2, delta format and streaming
 */
export function signalKMessage(json: unknown): SignalKMessage {
  if (!isFields(json)) return { kind: "faulty", expected: "a delta" };
  const [updates, self, context] = ["updates", "self", "context"].map((name) => property(json, name));
  if (updates === undefined) return typeof self === "string" ? { kind: "hello", self } : { kind: "other" };
  if (!isMissing(context) && typeof context !== "string")
    return { kind: "faulty", expected: "context: a text" };
  if (!Array.isArray(updates)) return { kind: "faulty", expected: "updates: a list" };
  return { kind: "delta", context: context ?? undefined, updates };
}

/** Whether a path, or one below it, is told by the boat herself alone. */
const isOwnPath = (path: string, value: unknown): boolean =>
  SIGNAL_K_PATHS.get(path)?.isOwn ??
  leavesOf(path, value).some((leaf) => isOwnPath(String(property(leaf, "path")), property(leaf, "value")));

/** Whether updates tell something that only the boat herself knows, so that they are no other vessel's. Never throws. */
export const areOwnUpdates = (updates: readonly unknown[]): boolean =>
  updates.some((update) => {
    const values = property(update, "values");
    return (
      Array.isArray(values) &&
      values.some((told) => isOwnPath(String(property(told, "path")), property(told, "value")))
    );
  });

/**
 * Reads the updates of a delta. Nothing in them is trusted: a value that is no number within the bounds of its quantity (M100),
 * or a part that is not what the specification says, makes the delta faulty. Null makes no reading. Never throws.
 *
 * @returns what should have stood there, in words, where the delta is faulty
 */
export function signalKUpdates(updates: readonly unknown[]): readonly SignalKUpdate[] | string {
  const faults: string[] = [];
  const read = updates.map((update) => updateOf(update, faults));
  return faults[0] ?? read;
}

function updateOf(update: unknown, faults: string[]): SignalKUpdate {
  if (!isFields(update)) faults.push("an update: an object");
  const values = property(update, "values") ?? [];
  if (!Array.isArray(values)) faults.push("values: a list");
  return {
    source: sourceName(update),
    time: timeOf(property(update, "timestamp"), faults),
    values: Array.isArray(values) ? values.flatMap((told) => valuesOf(told, faults)) : [],
  };
}

/** The name of the source: `$source`, else what the source says of itself. */
function sourceName(update: unknown): string {
  const reference = property(update, "$source");
  if (typeof reference === "string") return plainName(reference);
  const source = property(update, "source");
  const parts = ["label", "talker", "src", "instance"].map((name) => property(source, name));
  const told = parts.filter((part) => typeof part === "string" || typeof part === "number");
  return told.length === 0 ? "no source" : plainName(told.join("."));
}

/** Text without control characters, of bounded length: it stands in reports and on terminals. */
const plainName = (text: string): string =>
  text.slice(0, LONGEST_NAME).replace(/\p{C}/gu, "\u00b7").trim() || "no source";

function timeOf(timestamp: unknown, faults: string[]): ToldTime | undefined {
  if (isMissing(timestamp)) return undefined;
  const text = typeof timestamp === "string" && timestamp.length <= LONGEST_TIME ? timestamp : "";
  const bytes = new Uint8Array(text.length);
  for (let at = 0; at < text.length; at++) bytes[at] = text.charCodeAt(at);
  const told = isoTime(new TimeText(bytes, 0, bytes.length));
  if (told === undefined) faults.push("timestamp: date and time by ISO 8601");
  return told;
}

function valuesOf(entry: unknown, faults: string[]): readonly SignalKValue[] {
  const path = property(entry, "path");
  if (typeof path !== "string") {
    faults.push("path: a text");
    return [];
  }
  const value = property(entry, "value");
  const known = SIGNAL_K_PATHS.get(path);
  if (isMissing(value)) return [];
  if (known === undefined) return leavesOf(path, value).flatMap((leaf) => valuesOf(leaf, faults));
  const read = known.parts.map((part) => ({ part, value: partOf(path, part, value, faults) }));
  const told = read.filter((one) => !Number.isNaN(one.value));
  return known.isWhole && told.length < read.length ? [] : told;
}

/** The paths below a path that an object may stand at: "environment" and "environment.wind" of `environment.wind.angleApparent`. */
const BRANCHES: ReadonlySet<string> = new Set(
  [...SIGNAL_K_PATHS.keys()].flatMap((path) => {
    const names = path.split(".");
    return names.map((_, depth) => names.slice(0, depth).join("."));
  }),
);

/** M104. An object at a branch is what its leaves would be one by one, each by its own path. */
const leavesOf = (path: string, value: unknown): readonly Fields[] =>
  isFields(value) && BRANCHES.has(path)
    ? Object.entries(value).map(([name, leaf]) => ({
        path: path === "" ? name : `${path}.${name}`,
        value: leaf,
      }))
    : [];

/** One number of a value in SI units; NaN where it is not told. */
function partOf(path: string, part: SignalKPart, value: unknown, faults: string[]): number {
  const { quantity, property: name, toSi } = part;
  if (name !== undefined && !isFields(value)) faults.push(`${path}: an object`);
  const told = name === undefined ? value : property(value, name);
  if (isMissing(told)) return Number.NaN;
  const inSi = typeof told === "number" ? possibleValue(quantity, toSi ? toSi(told) : told) : Number.NaN;
  if (Number.isNaN(inSi))
    faults.push(
      `${path}${name === undefined ? "" : `.${name}`}: a number of ${QUANTITY_BOUNDS[quantity].words}`,
    );
  return inSi;
}
