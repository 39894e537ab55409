#!/usr/bin/env python3
"""The median time of a whole command over five runs, as a row of Markdown."""
import statistics
import subprocess
import sys
import time

command = sys.argv[1:]
times = []
for _ in range(6):
    start = time.monotonic()
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
    times.append(time.monotonic() - start)
print("| command | seconds |\n| --- | --- |")
print(f"| `{' '.join(command)}` | {statistics.median(times[1:]):.2f} |")
