import { type Finding, TYPICAL_READINGS } from "../../calibration/findings.ts";
import type { SensorSettings } from "../../sensors/parameters.ts";

/** An anemometer as an exercise found it. */
export interface FoundGain {
  readonly gainAt: (reading: number) => { readonly gain: number; readonly half: number };
  readonly threshold: number;
  readonly thresholdHalf: number;
  readonly gain: number;
  readonly gainHalf: number;
}

/** What goes into the boat's history. Never throws. */
export const findingsOf = ({
  threshold,
  thresholdHalf,
  gain,
  gainHalf,
  gainAt,
}: FoundGain): readonly Finding[] => [
  typicalFinding(gainAt(TYPICAL_READINGS.anemometer)),
  { name: "anemometer.threshold", value: threshold, half: thresholdHalf },
  { name: "anemometer.gain", value: Math.log(gain), half: gainHalf / gain },
];

const typicalFinding = ({ gain, half }: ReturnType<FoundGain["gainAt"]>): Finding => ({
  name: "anemometer.atTypical",
  value: Math.log(gain),
  half: half / gain,
});

/** The settings with what was found. Never throws. */
export const totalOf = ({ threshold, gain }: FoundGain, active: SensorSettings): SensorSettings => ({
  ...active,
  anemometer: { ...active.anemometer, threshold, gain },
});
