import type * as z from "zod";
import type { FormLegend } from "../../report/exercises/exerciseText.ts";

/** A schema of fields, one of which may be a list of rows. */
type FormSchema = z.ZodObject<Readonly<Record<string, z.ZodType>>>;

const fieldsOf = (shape: Readonly<Record<string, z.ZodType>>): FormLegend["above"] =>
  Object.entries(shape)
    .filter(([name]) => name !== "rows")
    .map(([name, field]) => ({
      name,
      meaning: field.description ?? "",
      isNeeded: !field.safeParse(undefined).success,
    }));

/** What a form may hold, as its schema describes it. Never throws. */
export function formLegend({ shape }: FormSchema): FormLegend {
  const rows = shape.rows as { readonly element?: FormSchema } | undefined;
  return { above: fieldsOf(shape), inTable: rows?.element ? fieldsOf(rows.element.shape) : [] };
}
