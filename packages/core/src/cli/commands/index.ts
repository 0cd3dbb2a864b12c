import type { Command } from "../command.ts";

/** Every command, in the order of the work. */
export const COMMANDS: readonly Command[] = [];
