import type { LineCount } from "../recording/readings.ts";
import type { RecordingSummary } from "../report/answer.ts";
import { LAGGED } from "../sailing/lags.ts";
import type { Sailing } from "../sailing/sailing.ts";
import type { LogCount } from "./readingsOfLog.ts";
import type { Survey } from "./survey.ts";

const MOST_PROBLEMS = 100;

const summed = (counts: readonly LogCount[]): LineCount => {
  const sum = (name: keyof LineCount): number => counts.reduce((total, { lines }) => total + lines[name], 0);
  return { lines: sum("lines"), used: sum("used"), ignored: sum("ignored"), problems: sum("problems") };
};

/** What a recording was found to hold, for answer and report. Never throws. */
export function recordingSummary(survey: Survey, sailing: Sailing): RecordingSummary {
  const { counts, choice, plan, leftOut } = survey;
  return {
    files: counts.map(({ name }) => name),
    ...(leftOut.length > 0 ? { filesLeftOut: leftOut } : {}),
    records: [...new Set(counts.flatMap(({ record }) => (record === undefined ? [] : [record])))],
    start: survey.start,
    end: survey.end,
    lines: summed(counts),
    problems: counts.flatMap(({ problems }) => problems).slice(0, MOST_PROBLEMS),
    chosen: choice.chosen,
    others: choice.others,
    lags: LAGGED.map((channel) => ({ channel, seconds: plan.lags?.[channel].seconds ?? Number.NaN })).filter(
      ({ seconds }) => !Number.isNaN(seconds),
    ),
    seconds: sailing.seconds,
    directionsAre: survey.directionsAre,
  };
}
