import type { Calibration, ComparedCalibrations, ParameterName } from "@bothtacks/core";
import {
  capital,
  html,
  LEARNT,
  type Markup,
  NOTHING,
  parameterAmount,
  parameterInterval,
  parameterNumber,
  parameterRow,
  parameterUnit,
  plain,
} from "@bothtacks/core/page";

/** Half the width of a 95 % interval, in standard deviations. */
const HALF_95 = 1.96;

/** A setting on one of the days, in the unit in which it is shown. */
interface Point {
  readonly day: string;
  readonly start: number;
  readonly value: number;
  readonly half: number;
  readonly isLearnt: boolean;
  readonly words: string;
  /** The smallest move from the day before that would have shown; NaN where none would. */
  readonly wouldShow: number;
  readonly hasMoved: boolean;
}

/** A setting through the days. */
interface Strip {
  readonly name: ParameterName;
  readonly points: readonly Point[];
}

/** The comparison of a day with the day before it. */
const stepTo = (now: Calibration, pairs: readonly ComparedCalibrations[]): ComparedCalibrations | undefined =>
  pairs.find((pair) => pair.now.recording.start === now.recording.start);

function pointOf(
  name: ParameterName,
  calibration: Calibration,
  pairs: readonly ComparedCalibrations[],
): Point | undefined {
  const found = calibration.fit.parameters.find((one) => one.name === name);
  if (found === undefined) return undefined;
  const step = stepTo(calibration, pairs)?.comparison;
  const smallest = step?.smallest.find((one) => one.name === name)?.move ?? Number.NaN;
  return {
    day: new Date(1000 * calibration.recording.start).toISOString().slice(0, 10),
    start: calibration.recording.start,
    value: parameterNumber(name, found.value),
    half: HALF_95 * parameterNumber(name, found.sd),
    isLearnt: found.informed >= LEARNT,
    words: `${parameterAmount(name, found.value)} ${parameterInterval(name, found.sd)}`,
    wouldShow: parameterNumber(name, smallest),
    hasMoved: step?.moved.some((one) => one.name === name) ?? false,
  };
}

/** Settings that some day has told, those that moved first. */
function stripsOf(
  calibrations: readonly Calibration[],
  pairs: readonly ComparedCalibrations[],
): readonly Strip[] {
  const names = calibrations[0]?.fit.parameters.map(({ name }) => name) ?? [];
  const strips = names.map((name) => ({
    name,
    points: calibrations.flatMap((one) => pointOf(name, one, pairs) ?? []),
  }));
  const told = strips.filter(({ points }) => points.some(({ isLearnt }) => isLearnt));
  const moved = (strip: Strip): boolean => strip.points.some(({ hasMoved }) => hasMoved);
  return [...told.filter(moved), ...told.filter((strip) => !moved(strip))];
}

/** The drawing's size, and what its edges leave free. */
const SIZE = { width: 320, height: 150, left: 46, right: 16, top: 18, bottom: 26 } as const;

/** Steps of an axis, of which it has some three. */
const STEPS = [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50] as const;

const rounded = (value: number): string => value.toFixed(1);

function scales(points: readonly Point[]) {
  const reach = points.flatMap(({ value, half, wouldShow }, index) => {
    const then = points[index - 1]?.value;
    const band = then === undefined || Number.isNaN(wouldShow) ? [] : [then - wouldShow, then + wouldShow];
    return [value - half, value + half, ...band];
  });
  const [low, high] = [Math.min(...reach), Math.max(...reach)];
  const room = 0.12 * (high - low);
  const [from, to] = [low - room, high + room];
  const [first, last] = [points[0]!.start, points.at(-1)!.start];
  const inner = SIZE.width - SIZE.left - SIZE.right - 28;
  const x = (start: number): number =>
    SIZE.left + 14 + (last > first ? (inner * (start - first)) / (last - first) : inner / 2);
  const y = (value: number): number =>
    SIZE.height - SIZE.bottom - ((value - from) / (to - from)) * (SIZE.height - SIZE.bottom - SIZE.top);
  const step = STEPS.find((one) => (to - from) / one <= 4) ?? 100;
  const ticks = Array.from({ length: Math.floor(to / step) - Math.ceil(from / step) + 1 }, (_, index) => {
    const value = (Math.ceil(from / step) + index) * step;
    return { value, words: plain(value, Math.max(0, Math.ceil(-Math.log10(step) - 1e-9))) };
  });
  return { x, y, ticks };
}

/** From a day to the next: how far from the earlier value a move need not have shown. */
const bands = (points: readonly Point[], { x, y }: ReturnType<typeof scales>): readonly Markup[] =>
  points.slice(1).map((now, index) => {
    const then = points[index]!;
    if (Number.isNaN(now.wouldShow)) return NOTHING;
    const [high, low] = [y(then.value + now.wouldShow), y(then.value - now.wouldShow)];
    return html`<rect class="would-show" x="${rounded(x(then.start))}" width="${rounded(x(now.start) - x(then.start))}" y="${rounded(high)}" height="${rounded(low - high)}"/>`;
  });

const marker = ({ start, value, half, isLearnt, hasMoved }: Point, { x, y }: ReturnType<typeof scales>) => {
  const at = rounded(x(start));
  return html`<g class="${isLearnt ? "known" : "unknown"}"><line x1="${at}" x2="${at}" y1="${rounded(y(value - half))}" y2="${rounded(y(value + half))}"/><circle cx="${at}" cy="${rounded(y(value))}" r="5"/>${hasMoved ? html`<text class="moved-mark" x="${at}" y="${SIZE.top - 6}" text-anchor="middle">moved</text>` : NOTHING}</g>`;
};

/** Dates below: of all days where there is room, else of the first and the last. */
const dates = (points: readonly Point[], x: (start: number) => number) =>
  points.map(({ day, start }, index) => {
    const isEnd = index === 0 || index === points.length - 1;
    const isRoomy = points.length < 3;
    if (!isEnd && !isRoomy) return NOTHING;
    const anchor = index === 0 ? "start" : "end";
    const at = index === 0 ? x(start) - 14 : x(start) + 14;
    return html`<text x="${rounded(at)}" y="${SIZE.height - 8}" text-anchor="${anchor}">${day}</text>`;
  });

function drawing({ name, points }: Strip): Markup {
  const scale = scales(points);
  const title = capital(parameterRow(name)[0]!.replace(/, [^,]*\/[^,]*$/, ""));
  const label = `${title}: ${points.map(({ day, words, hasMoved }) => `${day} ${words}${hasMoved ? ", moved" : ""}`).join("; ")}`;
  const unit = parameterUnit(name);
  return html`<figure class="strip-history"><figcaption><strong>${title}</strong>${unit === "" ? NOTHING : html`, ${unit}`}</figcaption>
<svg viewBox="0 0 ${SIZE.width} ${SIZE.height}" role="img" aria-label="${label}">
${bands(points, scale)}
${scale.ticks.map(({ value, words }) => html`<line class="rule" x1="${SIZE.left}" x2="${SIZE.width - SIZE.right}" y1="${rounded(scale.y(value))}" y2="${rounded(scale.y(value))}"/><text x="${SIZE.left - 6}" y="${rounded(scale.y(value) + 4)}" text-anchor="end">${words}</text>`)}
${points.map((point) => marker(point, scale))}${dates(points, scale.x)}
</svg></figure>`;
}

/** Each setting through the days with its intervals, and how far it could have gone without showing. Never throws. */
export const historyStrips = (
  calibrations: readonly Calibration[],
  pairs: readonly ComparedCalibrations[],
): Markup => html`<div class="strips">${stripsOf(calibrations, pairs).map(drawing)}</div>`;
