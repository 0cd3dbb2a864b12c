/** NMEA 2000 frames as lines of text, for tests: the three forms that logs have. */
export interface TestFrame {
  readonly pgn: number;
  readonly source: number;
  readonly data: readonly number[];
}

const hexadecimal = (value: number, digits: number): string =>
  value.toString(16).toUpperCase().padStart(digits, "0");

const bytesOfFrame = ({ data }: TestFrame): readonly string[] => data.map((byte) => hexadecimal(byte, 2));

/** Priority 2 before the parameter group, the source behind; a group that is sent to one address is sent to all. */
const identifier = ({ pgn, source }: TestFrame): string =>
  hexadecimal(2 * 2 ** 26 + (((pgn >> 8) & 0xff) < 240 ? pgn | 0xff : pgn) * 256 + source, 8);

/** As `(1502979132.106111) can0 09F50374#000A00FFFF00FFFF`. */
export const packedLine = (frame: TestFrame, time: number, bus = "can0"): string =>
  `(${time.toFixed(6)}) ${bus} ${identifier(frame)}#${bytesOfFrame(frame).join("")}`;

/** As ` (1502979132.106111)  can0  09F50374   [8]  00 0A 00 FF FF 00 FF FF`. */
export const candumpLine = (frame: TestFrame, time: number, bus = "can0"): string =>
  ` (${time.toFixed(6)})  ${bus}  ${identifier(frame)}   [${frame.data.length}]  ${bytesOfFrame(frame).join(" ")}`;

/** As `2017-08-17T14:12:12.106Z,2,128259,116,255,8,00,0a,00,ff,ff,00,ff,ff`. */
export const listedLine = (frame: TestFrame, time: number): string =>
  [
    new Date(time * 1000).toISOString(),
    2,
    frame.pgn,
    frame.source,
    255,
    frame.data.length,
    ...bytesOfFrame(frame).map((byte) => byte.toLowerCase()),
  ].join(",");

/** A message as the frames of a fast packet. */
export const fastPacket = ({ pgn, source, data }: TestFrame, sequence = 0): readonly TestFrame[] => {
  const frames: TestFrame[] = [];
  const first = [sequence << 5, data.length, ...data.slice(0, 6)];
  frames.push({ pgn, source, data: first });
  for (let at = 6; at < data.length; at += 7) {
    const part = data.slice(at, at + 7);
    const padded = [...part, ...new Array<number>(7 - part.length).fill(0xff)];
    frames.push({ pgn, source, data: [(sequence << 5) | frames.length, ...padded] });
  }
  return frames;
};
