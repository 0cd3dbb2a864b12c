import { readFile } from "node:fs/promises";

const published = new URL("../../datasets/published/", import.meta.url);

/** The text of a file of published check values. */
export const publishedText = (name: string): Promise<string> => readFile(new URL(name, published), "utf8");

/** Rows of numbers of a table of published check values; lines that begin with # are its head. */
export const publishedRows = async (name: string): Promise<readonly (readonly number[])[]> =>
  (await publishedText(name))
    .split("\n")
    .filter((line) => line.trim() !== "" && !line.startsWith("#"))
    .map((line) => line.trim().split(/\s+/).map(Number));
