import { degrees, radians } from "@bothtacks/core";

addEventListener("message", ({ data }: MessageEvent<number>) => {
  for (let count = 1; count <= data; count += 1) postMessage(Math.round(degrees(radians(count))));
});
