import july from "../../../../datasets/demo/season/july.json?raw";
import june from "../../../../datasets/demo/season/june.json?raw";
import september from "../../../../datasets/demo/season/september.json?raw";
import { STYLE as BENCH_STYLE } from "../boat/style.ts";
import type { Undraw, View } from "../contract.ts";
import { element } from "../inputs/labelled.ts";
import { Album } from "./album.ts";
import BetweenWorker from "./between.worker.ts?worker&inline";
import { inThisThread } from "./bureau.ts";
import { bureauInWorkers } from "./bureauInWorkers.ts";
import { comparedPart } from "./compared.ts";
import { keyedInPart, list, opening } from "./given.ts";
import { keptFilesOn } from "./keptFiles.ts";
import { planForm } from "./planForm.ts";
import { plannedPart } from "./planned.ts";
import { STYLE } from "./style.ts";

/** The page as a cell has it: what it does, and how it is drawn. */
export interface BetweenRegattas extends View {
  readonly album: Album;
  /** Calibrations of an invented boat. */
  readonly examples: () => Promise<readonly File[]>;
}

const examples = async (): Promise<readonly File[]> =>
  Object.entries({ june, july, september }).map(([name, text]) => new File([text], `${name}.json`));

/** Draws the page, and keeps it up to date until it is undrawn. */
function drawAlbum(place: HTMLElement, album: Album): Undraw {
  const all = [
    opening(album, examples),
    list(album),
    keyedInPart(album),
    comparedPart(),
    planForm(album),
    plannedPart(),
  ];
  place.classList.add("bench", "between");
  place.append(element("style", {}, BENCH_STYLE + STYLE), ...all.map((part) => part.element));
  const update = (): void => {
    for (const part of all) part.update(album.state);
    place.ariaBusy = String(album.state.comparing || album.state.planning);
  };
  const silence = album.listen(update);
  update();
  void album.begin();
  return () => {
    silence();
    album.callOff();
    for (const part of all) part.undraw?.();
  };
}

/**
 * What has moved between calibrations, and what to sail next. On a page its work is done in workers, made when first needed, and its
 * calibrations stay in the browser; in Node it does its work itself and keeps nothing.
 */
export function betweenRegattas(): BetweenRegattas {
  if (typeof document === "undefined") {
    const album = new Album(inThisThread);
    return { album, examples, draw: (place) => drawAlbum(place, album) };
  }
  const bureau = bureauInWorkers(() => new BetweenWorker());
  const album = new Album(
    bureau,
    keptFilesOn(() => localStorage),
  );
  return {
    album,
    examples,
    draw: (place) => {
      const undraw = drawAlbum(place, album);
      return () => {
        undraw();
        bureau.close();
      };
    },
  };
}
