"""What a user would write: the log in a plain loop, its sentences into numpy arrays.

Prints as JSON the good sentences, the bad ones and the sums of the apparent wind speeds and the speeds over ground in knots,
to compare, and the seconds that reading took.
"""
import json
import resource
import sys
import time as clock
from functools import reduce
from operator import xor

import numpy as np


def number(field):
    return float(field) if field else float("nan")


def position(field, side):
    value = float(field)
    degrees = value // 100 + value % 100 / 60
    return -degrees if side in b"SW" else degrees


def read(path):
    good = bad = 0
    time = float("nan")
    wind, water, compass, fixes, attitude = [], [], [], [], []
    with open(path, "rb") as log:
        for line in log:
            line = line.rstrip()
            star = line.rfind(b"*")
            body = line[1:star]
            if reduce(xor, body, 0) != int(line[star + 1:], 16):
                bad += 1
                continue
            good += 1
            field = body.split(b",")
            kind = field[0][2:]
            if kind == b"MWV":
                wind.append((time, number(field[1]), number(field[3]), field[2] == b"R"))
            elif kind == b"VHW":
                water.append((time, number(field[1]), number(field[3]), number(field[5])))
            elif kind == b"HDG":
                compass.append((time, number(field[1]), number(field[4])))
            elif kind == b"RMC":
                told = field[1]
                time = int(told[:2]) * 3600 + int(told[2:4]) * 60 + float(told[4:])
                place = position(field[3], field[4]), position(field[5], field[6])
                fixes.append((time, *place, number(field[7]), number(field[8])))
            elif kind == b"XDR":
                attitude.append((time, number(field[2]), number(field[6])))
    return good, bad, [np.array(rows, float) for rows in (wind, water, compass, fixes, attitude)]


before = clock.perf_counter()
good, bad, (wind, _, _, fixes, _) = read(sys.argv[1])
seconds = clock.perf_counter() - before
found = {"good": good, "bad": bad, "wind": wind[wind[:, 3] == 1, 2].sum(), "ground": fixes[:, 3].sum()}
megabytes = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
print(json.dumps({"found": found, "seconds": {"reading": seconds}, "megabytes": megabytes}))
