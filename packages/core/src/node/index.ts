/**
 * Logs on disk, files written whole: for Node alone.
 *
 * @module @bothtacks/core/node
 */

export { FileProblem } from "./fileProblem.ts";
export { type LogFile, logFile } from "./logFile.ts";
export { logsAt } from "./logsAt.ts";
export { type LogReading, type ReadingOptions, readingLogs } from "./readingLogs.ts";
export {
  type Files,
  requireFileFree,
  requireFolderFree,
  writeFileWhole,
  writeFolderWhole,
} from "./writeWhole.ts";
