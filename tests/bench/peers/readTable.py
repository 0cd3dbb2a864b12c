"""A log in columns with pandas: prints as JSON the rows and the sum of the apparent wind speeds in knots, the seconds that
reading took and the memory."""
import json
import resource
import sys
import time as clock

import pandas as pd

before = clock.perf_counter()
log = pd.read_csv(sys.argv[1])
seconds = clock.perf_counter() - before
found = {"rows": len(log), "wind": round(float(log["aws_kn"].sum()), 2)}
megabytes = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
print(json.dumps({"found": found, "seconds": {"reading": seconds}, "megabytes": megabytes}))
