#!/usr/bin/env python3
"""Writes what the README's commands print into its blocks (see tests/checks/check_readme.py): as many
lines before and after a `…` as were there."""
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

root, binary = pathlib.Path(sys.argv[1]).resolve(), str(pathlib.Path(sys.argv[2]).resolve())


def printed(command, folder):
    result = subprocess.run(command.replace("build/spadework", binary, 1), shell=True, cwd=folder,
                            capture_output=True, text=True, timeout=120)
    return (result.stdout + result.stderr).splitlines()


def refreshed(block):
    steps = re.split(r"^\$ ", block.group(1), flags=re.M)[1:]
    out = "```console\n"
    with tempfile.TemporaryDirectory() as folder:
        shutil.copytree(root / "examples", pathlib.Path(folder) / "examples")
        for step in steps:
            command, _, shown = step.partition("\n")
            was, now = shown.splitlines(), printed(command, folder)
            if "…" in was:
                before, after = was.index("…"), len(was) - was.index("…") - 1
                now = now[:before] + ["…"] + (now[-after:] if after else [])
            out += "\n".join([f"$ {command}", *now]) + "\n"
    return out + "```"


page = root / "README.md"
page.write_text(re.sub(r"```console\n(.*?)```", refreshed, page.read_text(), flags=re.S))
