#!/usr/bin/env python3
"""The median time of a whole command over five runs, and its most memory, as rows of Markdown."""
import os
import statistics
import subprocess
import sys
import time

command = sys.argv[1:]
times, most_kb = [], 0
for _ in range(6):
    start = time.monotonic()
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL)
    _, status, usage = os.wait4(process.pid, 0)
    if status != 0:
        sys.exit(f"`{' '.join(command)}` failed")
    times.append(time.monotonic() - start)
    most_kb = max(most_kb, usage.ru_maxrss)
print(f"| `{' '.join(command)}` | {statistics.median(times[1:]):.2f} s, {most_kb / 1024:.0f} MB | 1 s, 200 MB |")
