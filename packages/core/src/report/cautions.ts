/** What the navigator must keep in mind, on every report. */
export const CAUTIONS: readonly string[] = [
  "Keep a proper lookout at all times; a calibration run never comes before it.",
  "Stay clear of other boats, of traffic lanes and of shallow water while circling, motoring head to wind or sailing reciprocal headings, and follow the local rules.",
  "This report is no aid to navigation: it judges sensors, and knows neither depths nor dangers.",
  "Where a compass must be certified, only a licensed adjuster can do that; a deviation card from a log does not replace one.",
  "Write down what was keyed in before, change one thing at a time, and check on the water that each change went the right way.",
];
