import {
  type Boat,
  boatFromFile,
  boatInFile,
  noCorrections,
  RefusedFile,
  UNKNOWN_BOAT,
} from "@bothtacks/core";
import { ACTIVE, type Field, GIVEN } from "./boatFields.ts";

/** What stands in the form, as text, by the fields' paths; "" where nothing does. */
export type Values = Readonly<Record<string, string>>;

/** What a boat file holds. */
type Json = Readonly<Record<string, unknown>>;

/** Why a boat cannot be taken: the field that is wrong, and what is wrong with it. */
export interface FieldTrouble {
  readonly path: string;
  readonly words: string;
}

const FORM = "the form";

const isJson = (value: unknown): value is Json =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** A value inside, by its path; undefined where there is none. */
const valueAt = (whole: Json, path: string): unknown =>
  path.split(".").reduce<unknown>((value, key) => (isJson(value) ? value[key] : undefined), whole);

/** The same with a value set at a path, or taken out where it is undefined. */
function withValue(whole: Json, [key = "", ...inside]: readonly string[], value: unknown): Json {
  const { [key]: old, ...others } = whole;
  const made = inside.length === 0 ? value : withValue(isJson(old) ? old : {}, inside, value);
  return made === undefined || (isJson(made) && Object.keys(made).length === 0)
    ? others
    : { ...others, [key]: made };
}

/** A number as it was typed, with a point or a comma; what is none stays text, for the schema to refuse. */
function typedNumber(text: string): number | string {
  const value = Number(text.replace(",", "."));
  return Number.isNaN(value) ? text : value;
}

function typedValue({ kind, path }: Field, text: string): unknown {
  const typed = text.trim();
  if (kind === "flag") return typed !== "" || undefined;
  if (typed === "") return undefined;
  return kind === "number" || path === "heel_sensor_sign" ? typedNumber(typed) : typed;
}

/** Fields that count only where another says so: a computer of which nothing is told corrects nothing that is told. */
function counts({ path }: Field, values: Values): boolean {
  if (path.startsWith("computer.")) return values["computer.table"] !== "";
  return !path.startsWith(`${ACTIVE}.`) || values[ACTIVE] === GIVEN;
}

/** The fields of a boat file that a form stands for, laid over those that it does not ask for. */
function jsonOf(fields: readonly Field[], values: Values, others: Json): Json {
  const told = fields
    .filter(({ path }) => path !== ACTIVE)
    .reduce(
      (whole, field) =>
        withValue(
          whole,
          field.path.split("."),
          counts(field, values) ? typedValue(field, values[field.path] ?? "") : undefined,
        ),
      isJson(others[ACTIVE]) && values[ACTIVE] === GIVEN ? others : { ...others, [ACTIVE]: undefined },
    );
  const how = values[ACTIVE];
  if (how === GIVEN) return { ...told, [ACTIVE]: told[ACTIVE] ?? {} };
  return { ...told, [ACTIVE]: how === "none" ? "none" : "unknown" };
}

/**
 * The boat that a form tells of.
 *
 * @param others what the boat file holds that the form does not ask for
 * @returns the boat, or the first field that is wrong. Never throws.
 */
export function boatOfForm(
  fields: readonly Field[],
  values: Values,
  others: Json,
): { readonly boat: Boat } | { readonly trouble: FieldTrouble } {
  try {
    return { boat: boatFromFile(JSON.stringify(jsonOf(fields, values, others)), FORM) };
  } catch (error) {
    if (!(error instanceof RefusedFile)) throw error;
    const words = `expected ${error.expected}, received ${error.received}`;
    return { trouble: { path: error.field, words } };
  }
}

/** Left empty, it is what another field says. */
const AS_MASTHEAD = "wind_sensor_height_m";

const DEFAULTS: Json = { ...boatInFile(UNKNOWN_BOAT) };

/** What a field that is left empty stands for, as far as it can be written in a word. Never throws. */
export const defaultOf = (path: string): string => {
  const value = path === AS_MASTHEAD ? undefined : valueAt(DEFAULTS, path);
  return typeof value === "number" ? String(value) : "";
};

const isUncorrected = ({ settings: { base, active } }: Boat): boolean =>
  base === "sensors without corrections" && JSON.stringify(active) === JSON.stringify(noCorrections);

/** How a boat's active corrections are told. */
function howActive(boat: Boat): string {
  if (boat.settings.base === "unknown corrections") return "";
  return isUncorrected(boat) ? "none" : GIVEN;
}

/** What stands in a field for a boat: nothing where it is what an empty field stands for. */
function shownText(path: string, boat: Boat, file: Json): string {
  if (path === ACTIVE) return howActive(boat);
  if (path.startsWith(`${ACTIVE}.`) && howActive(boat) !== GIVEN) return "";
  const value = valueAt(file, path);
  const empty = path === AS_MASTHEAD ? boat.mastHeight : valueAt(DEFAULTS, path);
  return value === undefined || value === empty || value === false ? "" : String(value);
}

/** What a form shows for a boat. Never throws. */
export function valuesOfBoat(fields: readonly Field[], boat: Boat): Values {
  const file: Json = { ...boatInFile(boat) };
  return Object.fromEntries(fields.map(({ path }) => [path, shownText(path, boat, file)]));
}
