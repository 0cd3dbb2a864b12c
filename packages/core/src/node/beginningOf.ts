import { open } from "node:fs/promises";
import { fileProblem } from "./fileProblem.ts";

const BYTES = 512;

/** The first half kilobyte of a file as text; empty for a folder. @throws FileProblem */
export async function beginningOf(path: string): Promise<string> {
  try {
    const file = await open(path);
    try {
      if (!(await file.stat()).isFile()) return "";
      const { buffer, bytesRead } = await file.read(Buffer.alloc(BYTES), 0, BYTES, 0);
      return buffer.toString("utf8", 0, bytesRead);
    } finally {
      await file.close();
    }
  } catch (error) {
    throw fileProblem(path, error);
  }
}
