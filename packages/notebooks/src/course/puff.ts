import { apparentWind, degrees, knots, metresPerSecond, radians, wrapAngle } from "@bothtacks/core";
import { plain } from "@bothtacks/core/page";
import type { Input } from "../contract.ts";
import { after, type Picture, type Point, times, toward } from "../drawings/picture.ts";
import { pictureInput } from "../inputs/pictureInput.ts";

/** A boat and the puff that will hit her, bow up. */
export interface Meeting {
  /** Where the true wind comes from, ° to the bow, port negative; kn. */
  readonly trueAngle: number;
  readonly trueSpeed: number;
  /** kn, straight ahead. */
  readonly boatSpeed: number;
  /** How far the puff has come, %. */
  readonly share: number;
  readonly [name: string]: number;
}

/** The meeting's places, the boat's present one being the middle of the picture. */
export interface MeetingPlaces {
  /** Felt wind: ° to the bow, port negative, NaN where nothing is felt; kn. */
  readonly feltAngle: number;
  readonly feltSpeed: number;
  /** Where the puff starts and where it meets the boat, an hour later. */
  readonly start: Point;
  readonly meeting: Point;
  /** Where puff and boat have come to. */
  readonly puff: Point;
  readonly boat: Point;
}

/** Where puff and boat are (M10): what starts on the felt wind's bearing, at its distance of an hour, meets the boat. Never throws. */
export function meetingPlaces({ trueAngle, trueSpeed, boatSpeed, share }: Meeting): MeetingPlaces {
  const felt = apparentWind({ direction: radians(trueAngle), speed: metresPerSecond(trueSpeed) }, 0, {
    direction: 0,
    speed: metresPerSecond(boatSpeed),
  });
  const [feltAngle, feltSpeed] = [degrees(felt.angle), knots(felt.speed)];
  const [start, meeting] = [toward(feltAngle, feltSpeed), toward(0, boatSpeed)];
  const come = share / 100;
  const puff = after(start, times(come, toward(trueAngle + 180, trueSpeed)));
  return { feltAngle, feltSpeed, start, meeting, puff, boat: times(come, meeting) };
}

const HERE: Point = { right: 0, up: 0 };

/** The meeting from above. Never throws. */
export function meetingPicture(sailed: Meeting): Picture {
  const { trueSpeed, boatSpeed } = sailed;
  const { feltAngle, feltSpeed, start, meeting, puff, boat } = meetingPlaces(sailed);
  return {
    label: `From above, bow up: a puff comes from ${plain(feltAngle, 0)}° to the bow and meets the boat ahead of where she is.`,
    up: "bow",
    reach: 10 * Math.ceil(Math.max(feltSpeed, boatSpeed, 11) / 10),
    sights: [
      [start, HERE],
      [puff, boat],
    ],
    arrows: [
      { kind: "feltWind", from: start, to: HERE, label: `felt ${plain(feltSpeed, 1)} kn` },
      { kind: "trueWind", from: start, to: meeting, label: `true ${plain(trueSpeed, 1)} kn` },
      { kind: "boat", from: HERE, to: meeting, label: `boat ${plain(boatSpeed, 1)} kn` },
    ],
    hulls: [
      { at: meeting, bow: 0, isGhost: true },
      { at: boat, bow: 0 },
    ],
    puffs: [puff],
  };
}

const directionIn = ({ right, up }: Point): number => degrees(wrapAngle(Math.atan2(right, up)));

/** A puff and a boat to drag; the sliders do the same. Never throws. */
export const puffInput = (): Input<Meeting> =>
  pictureInput<Meeting>({
    label: "Drag the puff, or the boat in outline; the sliders do the same.",
    sliders: {
      trueAngle: {
        label: "True wind angle (port −)",
        unit: "°",
        from: -180,
        to: 180,
        initial: 60,
      },
      trueSpeed: { label: "True wind speed", unit: "kn", from: 0, to: 30, step: 0.5, initial: 12 },
      boatSpeed: { label: "Boat speed", unit: "kn", from: 0, to: 20, step: 0.5, initial: 7 },
      share: { label: "How far the puff has come", unit: "%", from: 0, to: 100, initial: 0 },
    },
    picture: meetingPicture,
    handles: (sailed) => {
      const { start, meeting } = meetingPlaces(sailed);
      return [
        {
          at: start,
          dragged: (to) => {
            const wind = after(to, times(-1, meeting));
            return { trueAngle: directionIn(wind), trueSpeed: Math.hypot(wind.right, wind.up) };
          },
        },
        { at: meeting, dragged: ({ up }) => ({ boatSpeed: up }) },
      ];
    },
  });
