import type { Input } from "../contract.ts";
import { type Picture, type Point, picture, pointIn } from "../drawings/picture.ts";
import { element } from "./labelled.ts";
import { type SliderOptions, slider } from "./slider.ts";

/** Numbers by name. */
type Numbers = Readonly<Record<string, number>>;

/** Something in the picture that can be dragged. */
export interface Handle<Value extends Numbers> {
  readonly at: Point;
  /** What dragging it to another place makes of the numbers; they are brought into their sliders' ranges. */
  readonly dragged: (to: Point) => Partial<Value>;
}

export interface PictureInputOptions<Value extends Numbers> {
  readonly label: string;
  /** Each number has a slider, which is the keyboard's way to what a pointer drags. */
  readonly sliders: { readonly [Name in keyof Value]: SliderOptions };
  readonly picture: (value: Value) => Picture;
  readonly handles: (value: Value) => readonly Handle<Value>[];
}

/** How near a pointer must come to take hold, in the drawing's unit. */
const GRIP = 26;

const nearest = <Value extends Numbers>(
  handles: readonly Handle<Value>[],
  to: Point,
  reach: number,
): number => {
  const far = handles.map(({ at }) => Math.hypot(at.right - to.right, at.up - to.up));
  const least = Math.min(...far);
  return least <= reach ? far.indexOf(least) : -1;
};

/** A slider on the page that can be moved by others as well. */
interface Moved {
  readonly place: HTMLElement;
  readonly move: (to: number) => void;
}

function moved(options: SliderOptions, change: (value: number) => void): Moved {
  const place = element("div");
  const { draw } = slider(options);
  const page = {
    drawFigure: () => () => undefined,
    prepareFigures: () => undefined,
    plotlySource: () => Promise.reject(),
  };
  draw(place, change, page, options.initial);
  const control = place.querySelector("input");
  return {
    place,
    move: (to) => {
      if (!control) return;
      // the control brings the number into its range and onto its steps
      control.value = String(to);
      control.dispatchEvent(new Event("input"));
    },
  };
}

/**
 * Numbers that are dragged in a picture or set by sliders below it.
 *
 * @throws RangeError where a slider cannot be
 */
export function pictureInput<Value extends Numbers>(options: PictureInputOptions<Value>): Input<Value> {
  const { label, sliders } = options;
  const names = Object.keys(sliders);
  for (const name of names) slider(sliders[name]!);
  const initial = Object.fromEntries(names.map((name) => [name, sliders[name]!.initial])) as Value;
  return {
    label,
    initial,
    draw: (place, change) => {
      new DraggedPicture(options, initial, change).drawIn(place);
      return undefined;
    },
  };
}

/** The picture and its sliders on the page. */
class DraggedPicture<Value extends Numbers> {
  private readonly drawing = element("div", { class: "draggable" });
  private readonly controls: ReadonlyMap<string, Moved>;
  private value: Value;
  /** Which handle is held; none below 0. */
  private held = -1;
  /** While something is held the scale stays, or what is dragged outward would run away from the pointer. */
  private reachHeld: number | undefined;

  constructor(
    private readonly options: PictureInputOptions<Value>,
    initial: Value,
    private readonly change: (value: Value) => void,
  ) {
    this.value = initial;
    const { sliders } = options;
    this.controls = new Map(
      Object.keys(sliders).map((name) => [name, moved(sliders[name]!, (number) => this.set(name, number))]),
    );
    this.drawing.addEventListener("pointerdown", (event) => this.take(event));
    this.drawing.addEventListener("pointermove", (event) => this.drag(event));
    for (const end of ["pointerup", "pointercancel"] as const)
      this.drawing.addEventListener(end, () => this.letGo());
  }

  drawIn(place: HTMLElement): void {
    const places = [...this.controls.values()].map((control) => control.place);
    const below = element("div", { class: "sliders" }, ...places);
    const legend = element("legend", {}, this.options.label);
    place.append(element("fieldset", { class: "pictured" }, legend, this.drawing, below));
    this.redraw();
  }

  private handles(): readonly Handle<Value>[] {
    return this.options.handles(this.value);
  }

  private reach(): number {
    return this.reachHeld ?? this.options.picture(this.value).reach;
  }

  private redraw(): void {
    const handles = this.handles().map(({ at }) => at);
    const drawn = { ...this.options.picture(this.value), reach: this.reach(), handles };
    this.drawing.innerHTML = picture(drawn).markup;
  }

  private set(name: string, number: number): void {
    this.value = { ...this.value, [name]: number };
    this.redraw();
    this.change(this.value);
  }

  private under(event: PointerEvent): Point | undefined {
    const svg = this.drawing.querySelector("svg");
    return svg ? pointIn(svg, event, this.reach()) : undefined;
  }

  private take(event: PointerEvent): void {
    const at = this.under(event);
    const reach = this.reach();
    this.held = at ? nearest(this.handles(), at, (GRIP * reach) / 180) : -1;
    if (this.held < 0) return;
    this.reachHeld = reach;
    event.preventDefault();
    this.drawing.setPointerCapture(event.pointerId);
  }

  private drag(event: PointerEvent): void {
    const handle = this.handles()[this.held];
    const to = handle && this.under(event);
    if (!to) return;
    for (const [name, number] of Object.entries(handle.dragged(to)))
      this.controls.get(name)?.move(Number(number));
  }

  private letGo(): void {
    this.held = -1;
    this.reachHeld = undefined;
    this.redraw();
  }
}
