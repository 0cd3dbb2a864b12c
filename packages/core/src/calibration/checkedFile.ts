import type * as z from "zod";
import { nearestWord } from "./nearestWord.ts";
import { RefusedFile, shown } from "./refusedFile.ts";

type Path = readonly PropertyKey[];

/** `["parameters", 3, "sd"]` as `parameters[3].sd`. */
const fieldName = (path: Path): string =>
  path
    .map((part) => (typeof part === "number" ? `[${part}]` : `.${String(part)}`))
    .join("")
    .replace(/^\./, "");

const quoted = (values: readonly unknown[]): string =>
  values.map((value) => JSON.stringify(value)).join(", ");

/** The keys that a schema of objects knows at a path; in a union, those of the alternative that the value is. */
function knownKeys(schema: unknown, path: Path, value: unknown): readonly string[] {
  let at = alternative(schema, value);
  let inside = value;
  for (const part of path) {
    inside = (inside as Readonly<Record<PropertyKey, unknown>> | undefined)?.[part];
    at = alternative(
      typeof part === "number" ? at.element : (at.shape?.[String(part)] ?? at.valueType),
      inside,
    );
  }
  return Object.keys(at.shape ?? at.keyType?.enum ?? {});
}

/** The object or list schema inside a schema; of a union told apart by a field, the one that the value's field names. */
function alternative(schema: unknown, value: unknown): SchemaParts {
  const parts = unwrapped(schema);
  const { discriminator } = parts.def ?? {};
  if (parts.options === undefined || discriminator === undefined) return parts;
  const name = (value as Readonly<Record<string, unknown>> | undefined)?.[discriminator];
  const fitting = parts.options.map(unwrapped).find(({ shape }) => {
    const field = shape?.[discriminator] as z.ZodType | undefined;
    return field?.safeParse(name).success;
  });
  return fitting ?? parts;
}

interface SchemaParts {
  readonly shape?: Readonly<Record<string, unknown>>;
  readonly element?: unknown;
  readonly options?: readonly unknown[];
  readonly def?: { readonly discriminator?: string };
  /** Of records: what each value is, and which keys there are. */
  readonly valueType?: unknown;
  readonly keyType?: { readonly enum?: Readonly<Record<string, unknown>> };
}

/** The object or list schema inside defaults and the like. */
function unwrapped(schema: unknown): SchemaParts {
  let at = schema as { unwrap?: () => unknown } & SchemaParts;
  while (at?.shape === undefined && at?.element === undefined && typeof at?.unwrap === "function")
    at = at.unwrap() as typeof at;
  return at ?? {};
}

const bound = (issue: { minimum?: unknown; maximum?: unknown; inclusive?: boolean | undefined }): string =>
  issue.minimum !== undefined
    ? `${issue.inclusive ? "at least" : "more than"} ${String(issue.minimum)}`
    : `${issue.inclusive ? "at most" : "less than"} ${String(issue.maximum)}`;

/** What is expected, as it is called in English. */
const NOUNS: Readonly<Record<string, string>> = { array: "list" };

const article = (noun: string): string =>
  /^[aeiou]/.test(named(noun)) ? `an ${named(noun)}` : `a ${named(noun)}`;

const named = (noun: string): string => NOUNS[noun] ?? noun;

function expectation(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case "invalid_type":
      return article(issue.expected);
    case "invalid_value":
      return issue.values.length === 1 ? quoted(issue.values) : `one of ${quoted(issue.values)}`;
    case "too_small":
    case "too_big":
      return `${issue.origin === "number" ? "a number" : article(issue.origin)} of ${bound(issue)}`;
    default:
      return issue.message;
  }
}

function refusal(
  issue: z.core.$ZodIssue,
  schema: unknown,
  value: unknown,
  file: string,
  at: Path,
): RefusedFile {
  if (issue.code !== "unrecognized_keys")
    return new RefusedFile(file, fieldName([...at, ...issue.path]), expectation(issue), shown(issue.input));
  const key = issue.keys[0] ?? "";
  const known = knownKeys(schema, issue.path, value);
  const nearest = nearestWord(key, known);
  const expected = nearest ? `a known field (did you mean "${nearest}"?)` : `one of ${quoted(known)}`;
  return new RefusedFile(file, fieldName([...at, ...issue.path]), expected, `the unknown field "${key}"`);
}

/**
 * A value that a schema accepts, with its defaults filled in.
 *
 * @param at path of the value within its file, for the message
 * @throws RefusedFile naming file, field, expected and received, for the first thing that is wrong
 */
export function checked<Schema extends z.ZodType>(
  schema: Schema,
  value: unknown,
  file: string,
  at: Path = [],
): z.output<Schema> {
  const result = schema.safeParse(value, { reportInput: true });
  if (result.success) return result.data;
  // an unknown field first: where it is a known one misspelt, the known one is missing, too
  const { issues } = result.error;
  const issue = issues.find(({ code }) => code === "unrecognized_keys") ?? issues[0];
  throw issue
    ? refusal(issue, schema, value, file, at)
    : new RefusedFile(file, fieldName(at), "another value", shown(value));
}

/** The object that a JSON text holds. @throws RefusedFile when it holds none */
function objectIn(text: string, file: string): Readonly<Record<string, unknown>> {
  const expected = "a JSON object";
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    throw new RefusedFile(file, "", expected, text.trim() === "" ? "an empty file" : "text that is no JSON");
  }
  if (typeof value !== "object" || value === null || Array.isArray(value))
    throw new RefusedFile(file, "", expected, shown(value));
  return value as Readonly<Record<string, unknown>>;
}

/**
 * The object in a file of ours whose `schema` and `version` are the ones that this program reads.
 *
 * @param missing what a missing `schema` and `version` mean: "current" for files written by hand
 * @throws RefusedFile
 */
export function versionedObject(
  text: string,
  file: string,
  expected: { readonly schema: string; readonly version: number },
  missing: "current" | "refused",
): Readonly<Record<string, unknown>> {
  const value = objectIn(text, file);
  for (const key of ["schema", "version"] as const) {
    const found = value[key];
    if (found === expected[key] || (found === undefined && missing === "current")) continue;
    throw new RefusedFile(file, key, JSON.stringify(expected[key]), shown(found));
  }
  return value;
}
