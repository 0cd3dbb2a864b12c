// Runs inside a page, first of all its scripts, while no debugger listens: ticks as fast as it may, and tells the server the largest gap
// between ticks of each stage, ms, the longest piece of the page's own work that is above 50 ms, and how long each stage took.
const stages = [];
let last = performance.now();

function begin(name) {
  stages.push({ name, gap: 0, task: 0, ticks: 0, from: performance.now(), ms: 0 });
}

begin("opening");
new PerformanceObserver((list) => {
  for (const { startTime, duration } of list.getEntries()) {
    const stage = stages.findLast(({ from }) => from <= startTime) ?? stages[0];
    stage.task = Math.max(stage.task, duration);
  }
}).observe({ entryTypes: ["longtask"] });

setInterval(() => {
  const now = performance.now();
  const stage = stages.at(-1);
  stage.gap = Math.max(stage.gap, now - last);
  stage.ticks += 1;
  stage.ms = now - stage.from;
  last = now;
});

const isDrawn = () =>
  [...document.querySelectorAll("[data-cell]")].every(({ ariaBusy }) => ariaBusy === "false") &&
  [...document.querySelectorAll(".drawing")].every(
    (one) => one.clientWidth === 0 || (one.ariaBusy !== "true" && one.querySelector("svg") !== null),
  );

async function when(holds) {
  while (!holds()) await new Promise((resolve) => setTimeout(resolve, 4));
}

const paint = () => performance.getEntriesByType("paint").find(({ name }) => name.startsWith("first-c"));

async function readLogs(names) {
  const bench = document.querySelector(".bench");
  const what = () => document.querySelector(".doing .what")?.textContent ?? "";
  begin("fetching the logs");
  const dropped = new DataTransfer();
  for (const name of names) dropped.items.add(new File([await (await fetch(name)).blob()], name));
  begin("reading");
  document
    .querySelector(".opening")
    .dispatchEvent(new DragEvent("drop", { dataTransfer: dropped, bubbles: true, cancelable: true }));
  await when(() => what().startsWith("Fitting"));
  begin("fitting");
  await when(() => document.querySelector(".doing").hidden);
  begin("drawing");
  await when(() => bench.ariaBusy === "false" && isDrawn());
}

addEventListener("load", async () => {
  await when(() => document.querySelector("main") && isDrawn());
  const { names } = await (await fetch("logs.json")).json();
  if (names.length > 0) await readLogs(names);
  // what was done last is told a moment later
  await new Promise((resolve) => setTimeout(resolve, 500));
  const trouble = document.querySelector(".progress .trouble")?.textContent ?? "";
  const said = document.querySelector(".conclusion")?.textContent ?? "";
  const marks = document.querySelectorAll(".scatterlayer path.point").length;
  await fetch("told", {
    method: "POST",
    body: JSON.stringify({ words: paint()?.startTime, stages, trouble, said, marks }),
  });
});
