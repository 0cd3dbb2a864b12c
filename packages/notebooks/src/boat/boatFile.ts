import {
  type Boat,
  boatFromFile,
  boatInFile,
  CALIBRATION_FILE,
  calibrationFromFile,
  settingsAfter,
} from "@bothtacks/core";

/** The name under which the boat is saved. */
export const BOAT_FILE_NAME = "boat.json";

/** Whether a text looks like a calibration file of ours, whatever else is wrong with it. */
const isCalibration = (text: string): boolean => text.includes(`"${CALIBRATION_FILE.schema}"`);

/**
 * The boat in a boat file; or that of a calibration whose corrections were all keyed in since.
 *
 * @throws RefusedFile naming file, field, expected and received
 */
export function boatOfFile(text: string, name: string): Boat {
  if (!isCalibration(text)) return boatFromFile(text, name);
  const calibration = calibrationFromFile(text, name);
  return { ...calibration.boat, settings: settingsAfter(calibration) };
}

/** The text of a boat's file. Never throws. */
export const boatFileText = (boat: Boat): string => `${JSON.stringify(boatInFile(boat), undefined, 2)}\n`;
