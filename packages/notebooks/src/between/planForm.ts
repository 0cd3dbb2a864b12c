import type { Part } from "../boat/part.ts";
import { element } from "../inputs/labelled.ts";
import { type Album, type AlbumState, namesOf } from "./album.ts";
import { EMPTY_FORM, type PlanFieldName, type PlanForm, wishOf } from "./planWish.ts";

/** Labels with units, and what an empty field means. */
const FIELDS: Readonly<Record<PlanFieldName, readonly [label: string, empty: string]>> = {
  minutes: ["Time (minutes)", ""],
  windSpeed: ["True wind speed (kn)", "12"],
  windDirection: ["Wind from (° true)", "any"],
};

/** What the next sail may be, and after which calibration. */
export function planForm(album: Album): Part<AlbumState> {
  const after = element("select");
  const power = element("input", { type: "checkbox" });
  power.checked = EMPTY_FORM.underPower;
  const trouble = element("p", { role: "alert", class: "field-error", id: "plan-trouble" });
  const controls = Object.fromEntries(
    (Object.keys(FIELDS) as readonly PlanFieldName[]).map((name) => {
      const placeholder = FIELDS[name][1];
      const control = element("input", {
        type: "text",
        inputmode: "decimal",
        autocomplete: "off",
        placeholder,
      });
      control.value = EMPTY_FORM[name];
      return [name, control];
    }),
  ) as Record<PlanFieldName, HTMLInputElement>;
  const field = (label: string, control: HTMLElement): HTMLElement =>
    element("label", { class: "field" }, element("span", {}, label), control);
  const form = element(
    "form",
    { novalidate: true },
    element(
      "div",
      { class: "fields" },
      field("After", after),
      ...(Object.keys(FIELDS) as readonly PlanFieldName[]).map((name) =>
        field(FIELDS[name][0], controls[name]),
      ),
      element("label", { class: "option" }, power, "There may be exercises under power"),
    ),
    trouble,
    element("p", { class: "doors" }, element("button", { type: "submit" }, "Plan the next sail")),
  );
  const asked = (): PlanForm => ({
    minutes: controls.minutes.value,
    windSpeed: controls.windSpeed.value,
    windDirection: controls.windDirection.value,
    underPower: power.checked,
  });
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const found = wishOf(asked());
    const wrong = "trouble" in found ? found.trouble : undefined;
    for (const [name, control] of Object.entries(controls)) {
      control.setAttribute("aria-invalid", String(name === wrong?.field));
      if (name === wrong?.field) control.setAttribute("aria-describedby", trouble.id);
    }
    trouble.textContent = wrong ? `${FIELDS[wrong.field][0]}: ${wrong.words}` : "";
    if ("wish" in found) void album.plan(after.selectedIndex, found.wish);
  });
  const section = element(
    "section",
    { hidden: true, class: "plan" },
    element("h2", { id: "next" }, "What to sail next"),
    form,
  );
  let shown: AlbumState["given"] | undefined;
  return {
    element: section,
    update: ({ given, planning }) => {
      section.hidden = given.length === 0;
      form.ariaBusy = String(planning);
      if (shown === given) return;
      shown = given;
      const names = given.map(({ calibration }) => namesOf(given)(calibration));
      after.replaceChildren(...names.map((name) => element("option", {}, name)));
      after.selectedIndex = given.length - 1;
    },
  };
}
