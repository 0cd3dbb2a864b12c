export * from "./units.ts";
