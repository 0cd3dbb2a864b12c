/** A hook of the module loader: packages of the workspace are taken as TypeScript rather than as built. */
export const resolve = (specifier, context, next) =>
  next(specifier, { ...context, conditions: [...context.conditions, "bothtacks-source"] });
