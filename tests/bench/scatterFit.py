"""What a careful user would write with scipy: boat speed set by GPS, then the settings that make the true wind direction of all
rows scatter least.

Reads JSON from standard input: {"fit": rows, "score": rows, "rounds": n}, each row
[awa, aws, stw, heading, heel, speed over ground, true wind direction or null] in radians and m/s, angles positive to starboard.
Writes {"gaps": [upwind, off the wind] in degrees, "seconds": the fit alone, median of the rounds}.
"""

import json
import sys
import time

import numpy as np
from scipy.optimize import least_squares

KNOT = 1852 / 3600


def true_wind(rows, speed_gain, p):
    """Components of where the wind comes from."""
    offset, upwash, wind_gain, leeway = p
    awa, aws, stw, heading, heel = rows[:, :5].T
    side = np.sign(awa)
    angle = awa - offset - side * upwash
    speed = aws * wind_gain
    boat = stw * speed_gain
    ahead = speed * np.cos(angle)
    athwart = speed * np.sin(angle) / np.cos(heel)
    drift = leeway * heel / np.maximum(boat / KNOT, 2) ** 2
    ahead = ahead - boat
    athwart = athwart - boat * np.tan(drift)
    east = ahead * np.sin(heading) + athwart * np.cos(heading)
    north = ahead * np.cos(heading) - athwart * np.sin(heading)
    return east, north


def scatter(p, rows, speed_gain):
    east, north = true_wind(rows, speed_gain, p)
    direction = np.arctan2(east, north)
    mean = np.arctan2(np.sin(direction).mean(), np.cos(direction).mean())
    return np.arctan2(np.sin(direction - mean), np.cos(direction - mean))


def gaps(rows, speed_gain, p):
    east, north = true_wind(rows, speed_gain, p)
    truth = rows[:, 6]
    error = np.arctan2(east, north) - truth
    error = np.arctan2(np.sin(error), np.cos(error))
    angle = np.arctan2(np.sin(truth - rows[:, 3]), np.cos(truth - rows[:, 3]))
    upwind = np.abs(angle) < np.radians(70)
    return [
        float(np.degrees(error[(angle > 0) & point].mean() - error[(angle < 0) & point].mean()))
        for point in (upwind, ~upwind)
    ]


def main():
    given = json.load(sys.stdin)
    rows = np.array(given["fit"], dtype=float)
    seconds = []
    for _ in range(given["rounds"]):
        before = time.perf_counter()
        speed_gain = rows[:, 5].mean() / rows[:, 2].mean()
        found = least_squares(scatter, [0, 0, 1, 10], args=(rows, speed_gain))
        seconds.append(time.perf_counter() - before)
    answer = {"seconds": float(np.median(seconds))}
    if given["score"]:
        answer["gaps"] = gaps(np.array(given["score"], dtype=float), speed_gain, found.x)
    json.dump(answer, sys.stdout)


main()
