"""What the NMEA 2000 recordings beside this file hold, decoded by other means than the library's: Python, its standard
library only, from the field layout that canboat publishes (docs/canboat.json at 01d0dc3dd24328c05cbeee384c477d36ea8066f6).

    python3 independentDecode.py > independentDecode.json

For each address, parameter group and field: how many values, first, last, least, greatest and mean, as whole counts of the
field's own unit, and a CRC-32 of all of them (as 64 bit little endian); first and last time, and the mean, in ms.
"""

import binascii
import datetime
import gzip
import json
import os
import struct
import sys

RECORDINGS = ["ocean-26s-many-sensors.n2k.gz", "upwind-leg-2014.n2k.gz"]

# name, first bit, bits, signed
FIELDS = {
    127250: [("heading", 8, 16, False), ("deviation", 24, 16, True), ("variation", 40, 16, True)],
    127251: [("rate", 8, 32, True)],
    127257: [("pitch", 24, 16, True), ("roll", 40, 16, True)],
    127258: [("variation", 32, 16, True)],
    128259: [("speedWaterReferenced", 8, 16, False), ("speedGroundReferenced", 24, 16, False)],
    128267: [("depth", 8, 32, False), ("offset", 40, 16, True)],
    128275: [("log", 48, 32, False)],
    129025: [("latitude", 0, 32, True), ("longitude", 32, 32, True)],
    129026: [("cog", 16, 16, False), ("sog", 32, 16, False)],
    129029: [("latitude", 56, 64, True), ("longitude", 120, 64, True)],
    130306: [("windSpeed", 8, 16, False), ("windAngle", 24, 16, False)],
    130310: [("waterTemperature", 8, 16, False)],
    130311: [("temperature", 16, 16, False)],
    130316: [("temperature", 24, 24, False)],
}

# The field that tells what the others mean: first bit, bits
KINDS = {127250: (56, 2), 129026: (8, 2), 130306: (40, 3), 130311: (8, 6), 130316: (16, 8), 129029: (252, 4)}


def bits(number, first, count):
    return number >> first & (1 << count) - 1


def told(number, length, first, count, is_signed):
    """The count that a field holds; None where it is not available (its three highest values) or past the end."""
    if first + count > 8 * length:
        return None
    raw = bits(number, first, count)
    if is_signed:
        highest = (1 << count - 1) - 1
        if highest - 2 <= raw <= highest:
            return None
        return raw - (1 << count) if raw > highest else raw
    return None if raw >= (1 << count) - 3 else raw


def milliseconds(text):
    moment = datetime.datetime.strptime(text, "%Y-%m-%dT%H:%M:%S.%fZ").replace(tzinfo=datetime.timezone.utc)
    return round(moment.timestamp() * 1000)


def values_in(path):
    with gzip.open(path, "rt", encoding="ascii") as log:
        for line in log:
            parts = line.rstrip("\r\n").split(",")
            if len(parts) < 7 or int(parts[2]) not in FIELDS:
                continue
            group, source = int(parts[2]), int(parts[3])
            data = bytes(int(part, 16) for part in parts[6:])
            number = int.from_bytes(data, "little")
            kind = bits(number, *KINDS[group]) if group in KINDS else 0
            for name, *field in FIELDS[group]:
                value = told(number, len(data), *field)
                if value is not None:
                    yield f"{source} {group} {kind} {name}", milliseconds(parts[0]), value


def series(path):
    found = {}
    for key, time, value in values_in(path):
        found.setdefault(key, []).append((time, value))
    return {key: summary(rows) for key, rows in sorted(found.items())}


def summary(rows):
    values = [value for _, value in rows]
    times = [time for time, _ in rows]
    return {
        "count": len(values),
        "first": values[0],
        "last": values[-1],
        "least": min(values),
        "greatest": max(values),
        "mean": sum(values) / len(values),
        "crc32": binascii.crc32(struct.pack(f"<{len(values)}q", *values)),
        "firstTime": times[0],
        "lastTime": times[-1],
        "meanTime": sum(times) / len(times),
    }


def lines_of(path):
    with gzip.open(path, "rt", encoding="ascii") as log:
        return log.read().splitlines()


folder = os.path.dirname(os.path.abspath(__file__))
decoded = {
    name: {"lines": len(lines_of(os.path.join(folder, name))), "series": series(os.path.join(folder, name))}
    for name in RECORDINGS
}
json.dump(decoded, sys.stdout, indent=1)
print()
