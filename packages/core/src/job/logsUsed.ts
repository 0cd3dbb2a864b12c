import { spanOfPart } from "../recording/inventoryPart.ts";
import type { LogSource } from "./logSource.ts";
import type { SurveyedLog } from "./logSteps.ts";
import { UnusableLog } from "./readingsOfLog.ts";

/** A file that was given but not used, and why in words. */
export interface LogLeftOut {
  readonly name: string;
  readonly reason: string;
}

/** A log that is used, and what was found in it. */
export interface UsedLog {
  readonly log: LogSource;
  readonly survey: SurveyedLog;
}

/**
 * What two copies of one recording have in common, compressed or not: the time that they span to the last digit, their lines, and
 * how many readings each source gave.
 */
const likenessOf = ({ count, inventory }: SurveyedLog): string =>
  JSON.stringify([
    spanOfPart(inventory),
    count.lines,
    inventory.map(({ source, health }) => [source, health.readings, health.lowest, health.highest]),
  ]);

/**
 * M163. The logs that are used: no file that is no log, and of a recording that was given twice one, lest its evidence count twice.
 *
 * @param found what was found in each, or why it cannot be used
 * @throws UnusableLog where none is left
 */
export function usedLogs(
  logs: readonly LogSource[],
  found: readonly (SurveyedLog | UnusableLog)[],
): { readonly used: readonly UsedLog[]; readonly leftOut: readonly LogLeftOut[] } {
  const used: UsedLog[] = [];
  const leftOut: LogLeftOut[] = [];
  const seen = new Map<string, string>();
  found.forEach((survey, place) => {
    const log = logs[place]!;
    if (survey instanceof UnusableLog) {
      leftOut.push({ name: log.name, reason: survey.reason });
      return;
    }
    const likeness = likenessOf(survey);
    const twin = seen.get(likeness);
    if (twin === undefined) used.push({ log, survey });
    else leftOut.push({ name: log.name, reason: `holds the same recording as ${twin}` });
    if (twin === undefined) seen.set(likeness, log.name);
  });
  const [first] = leftOut;
  if (used.length > 0) return { used, leftOut };
  throw first === undefined
    ? new UnusableLog("logs", "none was given")
    : new UnusableLog(
        first.name,
        leftOut.length === 1
          ? first.reason
          : `${first.reason}; nor are the other ${leftOut.length - 1} files logs`,
      );
}
