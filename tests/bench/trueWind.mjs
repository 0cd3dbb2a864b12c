// True wind of a million samples by columns, as peers/trueWind.py, in the processor's seconds: node trueWind.mjs SAMPLES
// REPEATS; prints as JSON.
import { trueWindColumns } from "../../packages/core/dist/physics/trueWindColumns.js";

const [samples, repeats] = process.argv.slice(2).map(Number);
const column = (value) => Float64Array.from({ length: samples }, (_, index) => value(index));
const sailed = {
  awa: column((index) => -2.9 + (5.8 * (index % 1009)) / 1009),
  aws: column((index) => 4 + (12 * (index % 997)) / 997),
  stw: column((index) => 2 + (4 * (index % 991)) / 991),
  heading: column((index) => (6.28 * (index % 983)) / 983),
  heel: column((index) => -0.4 + (0.8 * (index % 977)) / 977),
};
const out = {
  twd: new Float64Array(samples),
  tws: new Float64Array(samples),
  twa: new Float64Array(samples),
};
const seconds = Array.from({ length: repeats }, () => {
  const begin = process.cpuUsage();
  trueWindColumns(sailed, 2.5, out);
  const { user, system } = process.cpuUsage(begin);
  return (user + system) / 1e6;
});
const mean = (values) => values.reduce((sum, value) => sum + value, 0) / samples;
const found = {
  "mean tws": mean(out.tws),
  "mean sine": mean(out.twd.map(Math.sin)),
  "mean twa": mean(out.twa),
};
const megabytes = process.resourceUsage().maxRSS / 1024;
console.log(JSON.stringify({ found, seconds: { "true wind": seconds }, megabytes }));
