import { gzipSync } from "node:zlib";
import { drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import type { PlanStep } from "../../packages/core/src/simulate/scenario.ts";
import { linesOfSail } from "../../packages/core/src/simulate/simulatedLog.ts";
import { simulatedSail } from "../../packages/core/src/simulate/simulatedSail.ts";

/** A log by its name. */
export interface NamedBytes {
  readonly name: string;
  readonly bytes: Buffer<ArrayBuffer>;
}

const SEED = 41207;

/** A simulated sail of some 50 minutes as a log; another plan where one is given. */
function sailed(name: string, plan?: readonly PlanStep[]): NamedBytes {
  const scenario = drawScenario(SEED, { seconds: 3000, motoring: false });
  const sail = simulatedSail(plan ? { ...scenario, plan } : scenario);
  const text = [...linesOfSail(sail)].map((line) => `${line}\r\n`).join("");
  return { name, bytes: Buffer.from(text, "latin1") };
}

/** Half an hour of each of three days, of one boat: the second a day after the first, the third a week later. */
export const threeDays = (): readonly NamedBytes[] => {
  const { faults } = drawScenario(SEED, { seconds: 1800 });
  return [0, 1, 8].map((days, index) => {
    const drawn = drawScenario(SEED + 1 + index, { seconds: 1800, motoring: false, faults });
    const start = Date.UTC(2027, 6, 12 + days, 10) / 1000;
    const text = [...linesOfSail(simulatedSail({ ...drawn, start }))].map((line) => `${line}\r\n`).join("");
    return { name: `day-${index + 1}.nmea`, bytes: Buffer.from(text, "latin1") };
  });
};

let good: NamedBytes | undefined;

/** A good log; drawn once for all files that a worker runs, and written to by none. */
export function goodLog(): NamedBytes {
  good ??= sailed("good.nmea");
  return good;
}

/** Eleven minutes close-hauled on starboard tack, and nothing else. */
export const oneTackLog = (): NamedBytes =>
  sailed("one-tack.nmea", [{ kind: "beat", tack: "starboard", seconds: 660 }]);

/** The same log as gzip. */
export const gzipped = ({ name, bytes }: NamedBytes): NamedBytes => ({
  name: `${name}.gz`,
  bytes: Buffer.from(gzipSync(bytes)),
});

/** Prose that is no log, and would be markup if it were let. */
export const garbage = (): NamedBytes => ({
  name: "<img src=x onerror=alert(1)>.txt",
  bytes: Buffer.from("<script>alert(2)</script> and not one number\n".repeat(300)),
});

/** A log as a browser hands it over. */
export const fileOf = ({ name, bytes }: NamedBytes): File => new File([bytes], name);
