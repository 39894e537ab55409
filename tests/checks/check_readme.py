#!/usr/bin/env python3
"""The README's examples run and print what it shows; its pictures and pages are there.

A block fenced as ```console holds commands after `$ ` and their output; a line of `…` stands for any
lines that are left out. They run in order, one block in one folder, beside a copy of the examples.
"""
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

root, binary = pathlib.Path(sys.argv[1]).resolve(), str(pathlib.Path(sys.argv[2]).resolve())
problems = []
ran = 0
for page in [root / "README.md", *sorted((root / "docs").glob("*.md"))]:
    text = page.read_text()
    for target in re.findall(r"\]\(([^)#:]+)\)", text):
        if not (page.parent / target).exists():
            problems.append(f"{page.name}: {target} is not there")
    for block in re.findall(r"```console\n(.*?)```", text, re.S):
        steps = re.split(r"^\$ ", block, flags=re.M)[1:]
        with tempfile.TemporaryDirectory() as folder:
            shutil.copytree(root / "examples", pathlib.Path(folder) / "examples")
            for step in steps:
                command, _, shown = step.partition("\n")
                result = subprocess.run(command.replace("build/spadework", binary, 1), shell=True, cwd=folder,
                                        capture_output=True, text=True, timeout=120)
                ran += 1
                printed = result.stdout + result.stderr
                wanted = ".*?".join(re.escape(part) for part in
                                    re.split(r"^…\n", shown.rstrip("\n") + "\n" if shown.strip() else "", flags=re.M))
                if not re.fullmatch(wanted + r"\s*", printed, re.S):
                    problems.append(f"{page.name}: `{command}` prints:\n{printed}")
if ran < 5:
    problems.append(f"only {ran} examples were found")
print("\n".join(problems) or f"readme: {ran} examples print what is shown")
sys.exit(1 if problems else 0)
