// The page hands the file to a worker, so that it stays awake while the log is read.
import { degrees } from "@bothtacks/core/physics";

const worker = new Worker(new URL("./worker.js", import.meta.url), { type: "module" });
const element = (id) => document.getElementById(id);

element("log").addEventListener("change", ({ target }) => {
  const [file] = target.files;
  if (file) worker.postMessage(file);
});

const cell = (text) => Object.assign(document.createElement("td"), { textContent: text });

function row({ tack, start, end, meanAwa }) {
  const made = document.createElement("tr");
  made.append(cell(tack), cell(String(end - start)), cell(`${degrees(meanAwa).toFixed(0)}°`));
  return made;
}

worker.addEventListener("message", ({ data: { progress, trouble, legs } }) => {
  if (legs) element("legs").replaceChildren(...legs.map(row));
  element("status").textContent = trouble ?? progress ?? `${legs.length} legs.`;
});
