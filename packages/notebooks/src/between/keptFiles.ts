import type { Shelf } from "../boat/choices.ts";

/** A calibration file's text under its name. */
export interface KeptFile {
  readonly name: string;
  readonly text: string;
}

/** Calibration files that stay in this browser from visit to visit. */
export interface KeptFiles {
  readonly list: () => readonly KeptFile[];
  /** @returns whether there was room. */
  readonly keep: (files: readonly KeptFile[]) => boolean;
}

/** Nothing kept. */
export const NO_KEPT_FILES: KeptFiles = { list: () => [], keep: () => false };

/** Where the calibrations lie on the shelf. */
export const CALIBRATIONS = "bothtacks: calibrations";

const isKept = (value: unknown): value is KeptFile =>
  typeof value === "object" &&
  value !== null &&
  "name" in value &&
  "text" in value &&
  typeof value.name === "string" &&
  typeof value.text === "string";

/**
 * Calibrations kept on the browser's shelf; where it is full, forbidden or filled by another version, nothing is.
 *
 * @param shelf gives it; may throw where the browser has none for this page
 */
export const keptFilesOn = (shelf: () => Shelf): KeptFiles => ({
  list: () => {
    try {
      const kept: unknown = JSON.parse(shelf().getItem(CALIBRATIONS) ?? "[]");
      return Array.isArray(kept) ? kept.filter(isKept) : [];
    } catch {
      return [];
    }
  },
  keep: (files) => {
    try {
      if (files.length === 0) shelf().removeItem(CALIBRATIONS);
      else shelf().setItem(CALIBRATIONS, JSON.stringify(files));
      return true;
    } catch {
      return false;
    }
  },
});
