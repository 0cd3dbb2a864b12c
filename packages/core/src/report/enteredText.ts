import { clock } from "./format.ts";
import { list, paragraph } from "./textLines.ts";

/** What was written down as keyed in. @param changes of settings, as files hold them. Never throws. */
export const printedEntered = (changes: readonly string[], at: number, path: string): string =>
  [
    ...paragraph(
      changes.length === 0
        ? `Nothing changed in the instruments on ${clock(at)}; that is written down in ${path}.`
        : `Written down in ${path}: active in every log from ${clock(at)} on.`,
    ),
    ...list("Changed, in the units of files", changes),
    ...(changes.length === 0
      ? []
      : [
          "",
          ...paragraph(
            "Check on the water that each change went the right way, and that from tack to tack the true wind stays; a wrong correction is worse than none.",
          ),
        ]),
    "",
  ].join("\n");
