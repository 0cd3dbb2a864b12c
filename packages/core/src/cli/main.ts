#!/usr/bin/env node
import { runInTerminal } from "./terminal.ts";

process.exitCode = await runInTerminal(process.argv.slice(2));
