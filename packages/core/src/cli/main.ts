#!/usr/bin/env node
import { keepHeapSmall } from "./heapGrowth.ts";
import { runInTerminal } from "./terminal.ts";

keepHeapSmall();
process.exitCode = await runInTerminal(process.argv.slice(2));
