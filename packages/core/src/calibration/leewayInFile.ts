import type { LeewayByTack, ToldNumber } from "./calibration.ts";
import type { CalibrationInFile } from "./calibrationSchema.ts";
import { edgeFromSi, siFromEdge } from "./edgeUnits.ts";

const LEEWAY_UNIT = "deg*kn2/deg";

type LeewayByTackInFile = NonNullable<CalibrationInFile["leeway_by_tack"]>;

/** As a calibration file has it. Never throws. */
export function leewayByTackInFile({ starboard, port, difference }: LeewayByTack): LeewayByTackInFile {
  const tack = ({ value, sd, informed }: ToldNumber): LeewayByTackInFile["port"] => ({
    coefficient: edgeFromSi(value, LEEWAY_UNIT),
    sd: edgeFromSi(sd, LEEWAY_UNIT),
    informed_share: edgeFromSi(informed, "1"),
  });
  const { value, sd, informed } = difference;
  const [share, doubt, known] = [value, sd, informed].map((number) => edgeFromSi(number, "1"));
  return {
    starboard: tack(starboard),
    port: tack(port),
    difference: { share: share!, sd: doubt!, informed_share: known! },
  };
}

/** The inverse of `leewayByTackInFile`. Never throws. */
export function leewayByTackFromFile({ starboard, port, difference }: LeewayByTackInFile): LeewayByTack {
  const tack = ({ coefficient, sd, informed_share }: LeewayByTackInFile["port"]): ToldNumber => ({
    value: siFromEdge(coefficient, LEEWAY_UNIT),
    sd: siFromEdge(sd, LEEWAY_UNIT),
    informed: informed_share,
  });
  const { share, sd, informed_share } = difference;
  return {
    starboard: tack(starboard),
    port: tack(port),
    difference: { value: share, sd, informed: informed_share },
  };
}
