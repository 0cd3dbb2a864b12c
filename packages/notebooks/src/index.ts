// What cells import from "@bothtacks/notebooks".

export type * from "./contract.ts";
