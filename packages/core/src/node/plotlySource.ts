import { createRequire } from "node:module";
import { readText } from "./readText.ts";

/** The source text of plotly.js, which reports inline. @throws FileProblem where the package is not installed whole */
export const plotlySource = (): Promise<string> =>
  readText(createRequire(import.meta.url).resolve("plotly.js-dist-min/plotly.min.js"));
