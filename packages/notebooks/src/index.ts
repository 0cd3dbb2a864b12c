// What cells import from "@bothtacks/notebooks".

export { html } from "@bothtacks/core/page";
export type * from "./contract.ts";
export * from "./course/faults.ts";
export * from "./course/patternFigure.ts";
export * from "./course/puff.ts";
export * from "./course/unknownFault.ts";
export * from "./drawings/picture.ts";
export * from "./exercises/choiceExercise.ts";
export * from "./exercises/csvExport.ts";
export * from "./exercises/exercise.ts";
export * from "./inputs/checkBox.ts";
export * from "./inputs/choice.ts";
export * from "./inputs/fileChoice.ts";
export * from "./inputs/numberBox.ts";
export * from "./inputs/numberInAddress.ts";
export * from "./inputs/pictureInput.ts";
export * from "./inputs/press.ts";
export * from "./inputs/slider.ts";
export * from "./inputs/textArea.ts";
export * from "./inputs/textBox.ts";
export { mustHold } from "./mustHold.ts";
