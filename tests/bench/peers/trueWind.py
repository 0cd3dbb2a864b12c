"""True wind of many samples with numpy: heel, leeway and triangle by components east and north (M11, M12, M10 of the manual), as one
would write it; and with the algebra that the library uses (M152). Seconds are the processor's, not the wall clock's.

Usage: trueWind.py SAMPLES REPEATS; prints as JSON.
"""
import json
import resource
import sys
import time

import numpy as np

samples, repeats = int(sys.argv[1]), int(sys.argv[2])
index = np.arange(samples)
awa = -2.9 + 5.8 * (index % 1009) / 1009
aws = 4 + 12 * (index % 997) / 997
stw = 2 + 4 * (index % 991) / 991
heading = 6.28 * (index % 983) / 983
heel = -0.4 + 0.8 * (index % 977) / 977
SLOWEST = 3 * 1852 / 3600
LIMIT = np.radians(20)


def leeway():
    return np.clip(2.5 * heel / np.maximum(stw, SLOWEST) ** 2, -LIMIT, LIMIT)


def by_components():
    ahead, athwart = aws * np.cos(awa), aws * np.sin(awa) / np.cos(heel)
    adrift = stw * np.tan(leeway())
    sine, cosine = np.sin(heading), np.cos(heading)
    east = (ahead - stw) * sine + (athwart - adrift) * cosine
    north = (ahead - stw) * cosine - (athwart - adrift) * sine
    twd = np.arctan2(east, north) % (2 * np.pi)
    return twd, np.hypot(east, north), (twd - heading + np.pi) % (2 * np.pi) - np.pi


def in_boats_axes():
    ahead = aws * np.cos(awa) - stw
    athwart = aws * np.sin(awa) / np.cos(heel) - stw * np.tan(leeway())
    twa = np.arctan2(athwart, ahead)
    return (heading + twa) % (2 * np.pi), np.hypot(ahead, athwart), twa


def timed(work):
    seconds = []
    for _ in range(repeats):
        begin = time.process_time()
        work()
        seconds.append(time.process_time() - begin)
    return seconds


seconds = {"true wind": timed(by_components), "with M152's algebra": timed(in_boats_axes)}
twd, tws, twa = by_components()
found = {"mean tws": tws.mean(), "mean sine": np.sin(twd).mean(), "mean twa": twa.mean()}
megabytes = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
print(json.dumps({"found": found, "seconds": seconds, "megabytes": megabytes}))
