import { CSV } from "./csvFormat.ts";
import type { LogFormat } from "./logFormat.ts";
import { NMEA_0183 } from "./nmea0183Format.ts";
import { NMEA_2000 } from "./nmea2000Format.ts";
import { SIGNAL_K } from "./signalKFormat.ts";

/** The formats that are read; among those that a log is equally like, the first counts. */
export const LOG_FORMATS: readonly LogFormat[] = [NMEA_0183, NMEA_2000, SIGNAL_K, CSV];

/** What a log without a known format is read as: lines that are no sentences are passed over and counted. */
export const FALLBACK_FORMAT: LogFormat = NMEA_0183;
