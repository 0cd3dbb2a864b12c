import type { Command } from "../command.ts";
import { apply } from "./apply.ts";
import { check } from "./check.ts";
import { simulate } from "./simulate.ts";

/** Every command, in the order of the work. */
export const COMMANDS: readonly Command[] = [check, apply, simulate];
