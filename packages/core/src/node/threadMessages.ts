import { UnusableLog } from "../job/readingsOfLog.ts";
import type { SecondsPlan } from "../job/secondsOfLog.ts";
import type { Source } from "../recording/readings.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import { FileProblem } from "./fileProblem.ts";
import type { KnownLog } from "./keptSeconds.ts";
import type { LogFile } from "./logFile.ts";

/** A log as it is told to a thread. */
export type LogToRead = Omit<LogFile, "chunks"> & Partial<Pick<KnownLog, "identity">>;

/** What a thread is asked to do. */
export type Request = { readonly log: LogToRead } & (
  | { readonly step: "survey" }
  | { readonly step: "time"; readonly chosen: readonly Source[] }
  | { readonly step: "sail"; readonly plan: SecondsPlan; readonly active: SensorSettings }
);

/** An error as plain values: those that the command line foresees are told apart. */
export interface ToldError {
  readonly name: string;
  readonly message: string;
  /** Of which log or file, and why. */
  readonly of?: string;
  readonly reason?: string;
}

/** What a thread tells. */
export type Reply =
  | { readonly kind: "progress"; readonly share: number }
  | { readonly kind: "complaint"; readonly text: string }
  | { readonly kind: "found"; readonly found: unknown }
  | { readonly kind: "failed"; readonly error: ToldError };

/** An error as it can be told to another thread. Never throws. */
export function toldError(error: unknown): ToldError {
  if (error instanceof UnusableLog)
    return { name: error.name, message: error.message, of: error.log, reason: error.reason };
  if (error instanceof FileProblem)
    return { name: error.name, message: error.message, of: error.path, reason: error.reason };
  return error instanceof Error
    ? { name: error.name, message: error.message }
    : { name: "Error", message: String(error) };
}

/** The error that was told. Never throws. */
export function errorTold({ name, message, of = "", reason = "" }: ToldError): Error {
  if (name === "UnusableLog") return new UnusableLog(of, reason);
  if (name === "FileProblem") return new FileProblem(of, reason);
  return Object.assign(new Error(message), { name });
}
