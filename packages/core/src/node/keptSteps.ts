import type { JobRun, LogSource } from "../job/logSource.ts";
import type { LogSteps, SurveyedLog, TimedLog } from "../job/logSteps.ts";
import { UnusableLog } from "../job/readingsOfLog.ts";
import type { SailingPart } from "../sailing/mergedSailing.ts";
import { CODE_IDENTITY } from "./codeIdentity.ts";
import { type FileSteps, type HashedSurvey, hashOf } from "./fileSteps.ts";
import type { KnownLog } from "./keptSeconds.ts";
import type { Kind, LogCache } from "./logCache.ts";
import { isUnchanged, type LogFile } from "./logFile.ts";

/** What is kept of a log's first reading: what it holds, or why it is no log; with the hash of its bytes. */
type KeptSurvey = HashedSurvey | { readonly unusable: string };

/** The survey under the name that the log has now. */
const withName = ({ sha256: _, ...survey }: HashedSurvey, name: string): SurveyedLog => ({
  ...survey,
  count: {
    ...survey.count,
    name,
    problems: survey.count.problems.map((problem) => ({ ...problem, file: name })),
  },
});

/** Steps over files on disk as the job takes them. */
export interface KeptStepsOptions {
  readonly steps: FileSteps;
  readonly atOnce: number;
  /** Undefined: nothing is kept. */
  readonly cache: LogCache | undefined;
  /** Whether a log counts as known by the hash of its bytes only, not by size and time of change. */
  readonly verify: boolean;
}

/**
 * The steps over some files: what was found in a file is not looked for again while path, size and time of change stand, the
 * program is the same, and so is all that the step depends on.
 *
 * @param logs the files; others cannot be asked for
 */
export function keptSteps(
  logs: readonly LogFile[],
  { steps, atOnce, cache, verify }: KeptStepsOptions,
): LogSteps {
  const files = new Map<LogSource, LogFile>(logs.map((log) => [log, log]));
  const known = new Map<LogSource, KnownLog>();

  const fileOf = (log: LogSource): LogFile => {
    const file = files.get(log);
    if (file === undefined)
      throw new RangeError(`keptSteps: the log must be one of the files, got ${log.name}`);
    return file;
  };

  /** What a step found before, or finds now; kept where the file has not changed meanwhile. */
  async function foundBefore<Found>(
    log: LogFile,
    kind: Kind,
    about: string,
    find: () => Promise<Found>,
    stands: (kept: Found) => Promise<boolean> = async () => true,
  ): Promise<Found> {
    if (cache === undefined) return find();
    // a frame with the right check sum, under a name that holds this program's identity, is one that the same step wrote
    const kept = (await cache.value(log.path, kind, about)) as Found | undefined;
    if (kept !== undefined && (await stands(kept))) return kept;
    const found = await find();
    if (await isUnchanged(log)) await cache.keep(log.path, kind, about, found);
    return found;
  }

  async function surveyOf(log: LogFile, run: JobRun): Promise<KeptSurvey> {
    const about = JSON.stringify([CODE_IDENTITY, log.path, log.bytes, String(log.changed), log.columns]);
    const find = async (): Promise<KeptSurvey> => {
      try {
        return await steps.survey(log, run);
      } catch (error) {
        if (!(error instanceof UnusableLog)) throw error;
        return { unusable: error.reason };
      }
    };
    const stands = async (kept: KeptSurvey): Promise<boolean> =>
      !verify || ("sha256" in kept && kept.sha256 === (await hashOf(log, run)));
    const survey = await foundBefore(log, "survey", about, find, stands);
    if (cache !== undefined && "sha256" in survey)
      known.set(log, { ...log, identity: JSON.stringify([about, survey.sha256]) });
    return survey;
  }

  /** A later step: what it finds hangs on the log's content, known since the survey, and on what else it is given. */
  function later<Found>(
    log: LogFile,
    kind: Kind,
    given: unknown,
    find: (log: LogFile | KnownLog) => Promise<Found>,
  ): Promise<Found> {
    const identified = known.get(log);
    if (identified === undefined) return find(log);
    return foundBefore(log, kind, JSON.stringify([kind, identified.identity, given]), () => find(identified));
  }

  return {
    atOnce,
    async survey(log, run) {
      const survey = await surveyOf(fileOf(log), run);
      if ("unusable" in survey) throw new UnusableLog(log.name, survey.unusable);
      return withName(survey, log.name);
    },
    time: (log, chosen, run) =>
      later<TimedLog>(fileOf(log), "time", chosen, (file) => steps.time(file, chosen, run)),
    sail: (log, plan, active, run) =>
      later<SailingPart>(fileOf(log), "sail", [plan, active], (file) => steps.sail(file, plan, active, run)),
  };
}
