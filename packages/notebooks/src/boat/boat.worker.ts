import { serveTasks } from "../worker/tasks.ts";
import { Holding } from "./holding.ts";

serveTasks(self, new Holding().done);
