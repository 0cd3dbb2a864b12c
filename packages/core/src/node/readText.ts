import { readFile } from "node:fs/promises";
import { fileProblem } from "./fileProblem.ts";

/** The text of a whole file, for files of ours, which are small. @throws FileProblem */
export async function readText(path: string): Promise<string> {
  try {
    return await readFile(path, "utf8");
  } catch (error) {
    throw fileProblem(path, error);
  }
}
