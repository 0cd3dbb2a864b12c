/** What the job answers with. The types stand in `report/`, which draws from them and comes before the job. */
export type * from "../report/answer.ts";
