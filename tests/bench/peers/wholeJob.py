"""What a user would write with pandas, numpy and scipy: a log in columns to fitted corrections.

The stages: read log.csv and ref.csv; true wind of each row, uncorrected but for leeway; means over blocks of 60 s, angles as
vectors; six corrections by least squares, so that the blocks' wind is the reference's and their motion that over the ground.
Usage: wholeJob.py FOLDER; prints as JSON what was found and the seconds of each stage.
"""
import json
import resource
import sys
import time

import numpy as np
import pandas as pd
from scipy.optimize import least_squares

seconds = {}


def stage(name, work):
    begin = time.perf_counter()
    result = work()
    seconds[name] = time.perf_counter() - begin
    return result


def corrected(awa, aws, stw, hdg, heel, p):
    """Wind (toward) and motion, east and north."""
    offset, wind_gain, upwash, speed_gain, leeway, compass = p
    angle = np.radians(awa + offset + upwash * np.sin(np.radians(awa)))
    ahead = aws * wind_gain * np.cos(angle)
    athwart = aws * wind_gain * np.sin(angle) / np.cos(np.radians(heel))
    speed = stw * speed_gain
    heading = np.radians(hdg + compass)
    track = heading + np.radians(leeway * heel / np.maximum(speed**2, 1e-6))
    east, north = speed * np.sin(track), speed * np.cos(track)
    sine, cosine = np.sin(heading), np.cos(heading)
    return east - (ahead * sine + athwart * cosine), north - (ahead * cosine - athwart * sine), east, north


def read(folder):
    return pd.read_csv(folder + "/log.csv"), pd.read_csv(folder + "/ref.csv")


def true_wind(log):
    columns = [log[name].to_numpy() for name in ("awa", "aws", "stw", "hdg", "heel")]
    east, north, _, _ = corrected(*columns, [0, 1, 0, 1, 10, 0])
    return np.degrees(np.arctan2(-east, -north)) % 360, np.hypot(east, north)


def block_means(log, twd, tws):
    rows = pd.DataFrame({name: log[name] for name in ("aws", "stw", "heel", "sog")})
    rows["tws"] = tws
    for name, angles in (("awa", log.awa), ("hdg", log.hdg), ("cog", log.cog), ("twd", twd)):
        rows["sin_" + name] = np.sin(np.radians(angles))
        rows["cos_" + name] = np.cos(np.radians(angles))
    means = rows.groupby((log.t // 60).astype(np.int64)).mean()
    for name in ("awa", "hdg", "cog", "twd"):
        means[name] = np.degrees(np.arctan2(means["sin_" + name], means["cos_" + name]))
    return means


def fit(blocks, reference):
    columns = [blocks[name].to_numpy() for name in ("awa", "aws", "stw", "hdg", "heel")]
    sog, cog = blocks.sog.to_numpy(), np.radians(blocks.cog.to_numpy())
    ground_east, ground_north = sog * np.sin(cog), sog * np.cos(cog)
    ref_east, ref_north = reference.ref_e.to_numpy(), reference.ref_n.to_numpy()

    def residuals(p):
        wind_east, wind_north, east, north = corrected(*columns, p)
        return np.concatenate(
            (wind_east - ref_east, wind_north - ref_north, east - ground_east, north - ground_north)
        )

    return least_squares(residuals, [0, 1, 0, 1, 0, 0], jac="3-point", x_scale="jac")


log, reference = stage("reading", lambda: read(sys.argv[1]))
twd, tws = stage("true wind", lambda: true_wind(log))
blocks = stage("blocks", lambda: block_means(log, twd, tws))
fitted = stage("fit", lambda: fit(blocks, reference))
memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
found = {
    "rows": len(log),
    "blocks": len(blocks),
    "mean tws": float(tws.mean()),
    "first block": [float(blocks.twd.iloc[0]), float(blocks.tws.iloc[0])],
    "corrections": fitted.x.tolist(),
}
print(json.dumps({"found": found, "seconds": seconds, "megabytes": memory}))
