/** "without run 3, or without run 1, the others agree far better". @param places from 0, one and more. Never throws. */
export const suspectsInWords = (what: string, places: readonly number[]): string =>
  `${places.map((at) => `without ${what} ${at + 1}`).join(", or ")}${places.length > 1 ? "," : ""} the others agree far better`;
