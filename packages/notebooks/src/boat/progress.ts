import { capital, conclusion } from "@bothtacks/core/page";
import { element } from "../inputs/labelled.ts";
import { type Bench, type BenchState, isOutOfDate } from "./bench.ts";
import type { Part } from "./part.ts";
import { save } from "./save.ts";

/** What a screen reader is told: only what is new, and not each hundredth. */
function saidOf({ doing, answered }: BenchState): string {
  if (doing) return `${capital(doing.what)} …`;
  return answered ? `The answer is there. ${conclusion(answered.calibrated.answer)}` : "";
}

/** What went wrong, and what stands in spite of it. */
function troubleOf({ trouble, answered }: BenchState): string {
  if (trouble === undefined) return "";
  const sentence = trouble.endsWith(".") ? trouble : `${trouble}.`;
  return answered ? `${sentence} The answer below is the earlier one.` : sentence;
}

/** How far the work is, a way to call it off, and what went wrong. */
export function progress(bench: Bench): Part {
  const bar = element("progress", { max: 1, "aria-label": "Share done" });
  const what = element("span", { class: "what" });
  const stop = element("button", { type: "button" }, "Call it off");
  stop.addEventListener("click", () => bench.callOff());
  const doing = element("div", { class: "doing", hidden: true }, what, bar, stop);
  const troubleWords = element("p");
  const skeleton = element("button", { type: "button" }, "Save columns.json");
  skeleton.addEventListener("click", () => save("columns.json", bench.state.toFillIn ?? ""));
  const offer = element(
    "p",
    { class: "doors" },
    skeleton,
    "is such a file, with what is known: fill in each ?, and choose it together with the log.",
  );
  const trouble = element("div", { class: "trouble", role: "alert", hidden: true }, troubleWords);
  const again = element("button", { type: "button" }, "Answer again");
  again.addEventListener("click", () => void bench.answerAgain());
  const outOfDate = element(
    "p",
    { class: "doors", hidden: true },
    "The answer below is not for the boat as the form tells her now.",
    again,
  );
  const said = element("p", { class: "unseen", role: "status" });
  return {
    element: element("div", { class: "progress" }, doing, trouble, outOfDate, said),
    update: (state) => {
      doing.hidden = state.doing === undefined;
      if (state.doing) {
        const { share } = state.doing;
        if (Number.isNaN(share)) bar.removeAttribute("value");
        else bar.value = share;
        const percent = Number.isNaN(share) ? "" : `, ${Math.round(100 * share)} %`;
        what.textContent = `${capital(state.doing.what)}${percent}`;
      }
      const words = troubleOf(state);
      trouble.hidden = words === "";
      if (troubleWords.textContent !== words) troubleWords.textContent = words;
      if (state.toFillIn === undefined) offer.remove();
      else if (offer.parentElement === null) trouble.append(offer);
      outOfDate.hidden = !isOutOfDate(state);
      const now = saidOf(state);
      if (said.textContent !== now) said.textContent = now;
    },
  };
}
