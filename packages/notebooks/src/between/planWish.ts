import { metresPerSecond, type PlanWishes, radians } from "@bothtacks/core";
import { PLAN_RANGES, USUAL_MINUTES } from "@bothtacks/core/page";

/** What the next sail may be, as the library takes it. */
export type PlanWish = PlanWishes;

/** The same as it stands in the form; "" where nothing does. */
export interface PlanForm {
  readonly minutes: string;
  readonly windSpeed: string;
  readonly windDirection: string;
  readonly underPower: boolean;
}

export const EMPTY_FORM: PlanForm = {
  minutes: String(USUAL_MINUTES),
  windSpeed: "",
  windDirection: "",
  underPower: true,
};

export type PlanFieldName = keyof typeof PLAN_RANGES;

/** A field of the form that cannot be taken, and why. */
export interface PlanTrouble {
  readonly field: PlanFieldName;
  readonly words: string;
}

const isEmpty = (text: string): boolean => text.trim() === "";

/** The first field that is no number within its range. */
function troubleIn(form: PlanForm): PlanTrouble | undefined {
  for (const field of Object.keys(PLAN_RANGES) as readonly PlanFieldName[]) {
    if (field !== "minutes" && isEmpty(form[field])) continue;
    const [least, most] = PLAN_RANGES[field];
    const value = isEmpty(form[field]) ? Number.NaN : numberOf(form[field]);
    if (!(value >= least && value <= most))
      return { field, words: `expected a number from ${least} to ${most}, received "${form[field]}"` };
  }
  return undefined;
}

const numberOf = (text: string): number => Number(text.trim().replace(",", "."));

/** What a form asks for, or which field is wrong. Never throws. */
export function wishOf(form: PlanForm): { readonly wish: PlanWish } | { readonly trouble: PlanTrouble } {
  const trouble = troubleIn(form);
  if (trouble) return { trouble };
  const { minutes, windSpeed, windDirection, underPower } = form;
  return {
    wish: {
      seconds: 60 * numberOf(minutes),
      underPower,
      ...(isEmpty(windSpeed) ? {} : { windSpeed: metresPerSecond(numberOf(windSpeed)) }),
      ...(isEmpty(windDirection) ? {} : { windDirection: radians(numberOf(windDirection)) }),
    },
  };
}
