#!/usr/bin/env python3
"""Rooms include only rooms above them; files stay short; pure rooms touch no clock, file or log."""
import pathlib
import re
import sys

ORDER = ["base", "geometry", "facts", "garden", "climate", "sky", "ground", "light", "water",
         "planting", "views", "bill", "works", "seek", "study",
         "document", "store", "exchange", "sheets", "server", "cli"]
PURE = ORDER[:ORDER.index("document")]
IMPURE = re.compile(r"#include <(fstream|filesystem|iostream|cstdlib|ctime|fcntl\.h|unistd\.h)>|"
                    r"\b(system_clock|steady_clock|getenv|fopen|std::rand|std::random_device|time\(nullptr\))\b")
ALLOWED = {"src/base/check.cpp"}  # stops the program on a broken invariant

root = pathlib.Path(sys.argv[1])
problems = []
for path in sorted((root / "src").rglob("*")):
    if path.suffix not in (".h", ".cpp"):
        continue
    relative = path.relative_to(root).as_posix()
    room = path.relative_to(root / "src").parts[0]
    if room not in ORDER:
        problems.append(f"{relative}: there is no room called {room}")
        continue
    text = path.read_text()
    for number, line in enumerate(text.splitlines(), 1):
        found = re.match(r'#include "([a-z_]+)/', line)
        if found and found.group(1) in ORDER and ORDER.index(found.group(1)) > ORDER.index(room):
            problems.append(f"{relative}:{number}: {room} may not use {found.group(1)}, which is below it")
        if (room in PURE and relative not in ALLOWED and not path.name.endswith("_test.cpp")
                and IMPURE.search(line)):
            problems.append(f"{relative}:{number}: a pure room touches the world: {line.strip()}")
    if len(text.splitlines()) > 1000:
        problems.append(f"{relative}: over 1,000 lines")
for room in sorted({p.relative_to(root / 'src').parts[0] for p in (root / 'src').rglob('*.cpp')}):
    if not (root / "src" / room / f"{room}.h").exists():
        problems.append(f"src/{room}: has no front door {room}.h")

print("\n".join(problems) or "rooms: in order")
sys.exit(1 if problems else 0)
