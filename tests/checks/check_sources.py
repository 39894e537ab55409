#!/usr/bin/env python3
"""Every source key that code, data and golden cases name resolves in data/sources.toml."""
import pathlib
import re
import sys
import tomllib

root = pathlib.Path(sys.argv[1])
known = set(tomllib.loads((root / "data/sources.toml").read_text())["sources"])
problems = []
for path in sorted([*root.glob("src/**/*.h"), *root.glob("src/**/*.cpp")]):
    for number, line in enumerate(path.read_text().splitlines(), 1):
        if "Source:" not in line and "Source (" not in line:
            continue
        for key in re.findall(r"\[([a-z0-9][a-z0-9_-]*)\]", line.split("Source", 1)[1]):
            if key not in known:
                problems.append(f"{path.relative_to(root)}:{number}: no source called [{key}]")
KINDS = {"published", "independent program", "closed form", "common practice, no source"}
cases = sorted(root.glob("tests/golden/**/case.toml"))
for path in cases:
    case = tomllib.loads(path.read_text())
    entries = [v for v in case.values() if isinstance(v, dict)] or [case]
    for entry in entries:
        for field in ("kind", "citation", "licence", "tolerance", "why"):
            value = entry.get(field, case.get(field))
            if not value:
                problems.append(f"{path.relative_to(root)}: says no {field}")
        if entry.get("kind", case.get("kind")) not in KINDS:
            problems.append(f"{path.relative_to(root)}: kind is none of {sorted(KINDS)}")
for folder in sorted(p for p in (root / "tests/golden").glob("*/") if p.is_dir()):
    if not list(folder.rglob("case.toml")):
        problems.append(f"{folder.relative_to(root)}: golden data without case.toml")
if not cases:
    problems.append("no golden case found")
print("\n".join(problems) or f"sources: {len(known)} known, {len(cases)} golden cases, all keys resolve")
sys.exit(1 if problems else 0)
