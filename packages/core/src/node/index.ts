export { FileProblem } from "./fileProblem.ts";
export { type LogFile, logFile } from "./logFile.ts";
export {
  type Files,
  requireFileFree,
  requireFolderFree,
  writeFileWhole,
  writeFolderWhole,
} from "./writeWhole.ts";
