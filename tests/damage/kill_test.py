#!/usr/bin/env python3
"""Nothing lost: the server is killed at a random moment while edits stream in, again and again.

Each run starts a server on a growing garden, lets one or two clients move trees, type heights and undo, and kills it
with SIGKILL: at a random moment or, with the library of kill_at.cpp, at a random one of its calls that change files,
half way through a write too. Sometimes it is killed once more while it opens the garden, or while it makes new ones.
Then SQLite alone, on a copy, and the next server must find: a whole file, every edit that was answered, and each that
was not answered wholly there or not at all. Commands without an answer are sent again with their ids and must end up
done exactly once.

kill_test.py BINARY [--at LIBRARY] [--runs 50] [--seed N]
"""
import argparse
import collections
import http.client
import math
import os
import pathlib
import random
import sys
import tempfile
import threading
import time

sys.path.insert(0, str(pathlib.Path(__file__).parent))
from serving import GARDEN, Broken, Copy, Server, claim, figures

TREES = ["medlar", "hazel"]
RUNS_A_GARDEN = 25
LONGEST_S = 0.3
MOST_CALLS = 2500  # that change files: more than from one checkpoint to the next
GONE = (OSError, http.client.HTTPException)

Sent = collections.namedtuple("Sent", "kind body")
Answered = collections.namedtuple("Answered", "sent change revision")


class Garden:
    """A garden, and what was sent to it and answered over all runs."""

    def __init__(self, folder, library):
        self.folder = folder
        self.kill_at = folder.parent / f"{folder.name}.kill-at"
        self.library = library
        self.path = folder / "damage.garden"
        self.at = "/api/gardens/damage"
        self.lock = threading.Lock()
        self.answered = {}     # by command
        self.unanswered = {}   # by command
        self.known = {1}       # revisions whose command is known
        self.checked = set()   # commands that were found in the file
        self.head = (1, 1)     # change and revision of the last answer
        self.kept = set()      # further gardens whose making was answered

    def note(self, command, sent, change, revision):
        with self.lock:
            self.unanswered.pop(command, None)
            self.answered[command] = Answered(sent, change, revision)
            self.head = max(self.head, (change, revision))
            if sent.kind == "edits":
                self.known.add(revision)


def an_edit(dice, tree, may_undo):
    """A move by whole centimetres, or a height; now and then an undo."""
    if may_undo and dice.random() < 0.1:
        return Sent("steps", {"step": "undo"})
    what = {"scheme": "found", "thing": tree}
    if dice.random() < 0.5:
        by = [dice.choice([-0.02, -0.01, 0.01, 0.02]), dice.choice([-0.01, 0, 0.01])]
        return Sent("edits", what | {"move_m": by})
    return Sent("edits", what | {"set": {"height_m": round(dice.uniform(2, 9), 6)}})


def change_now(server, garden):
    return server.ask("GET", f"{garden.at}/revisions")[1]["head"]["change"]


def post(server, garden, sent):
    return server.ask("POST", f"{garden.at}/{sent.kind}", sent.body)


class Client(threading.Thread):
    """Edits as fast as they are answered, until there is no answer."""

    def __init__(self, server, garden, name, tree, dice, alone):
        super().__init__(name=name)
        self.server, self.garden, self.tree, self.dice, self.alone = server, garden, tree, dice, alone
        self.broken = None

    def run(self):
        try:
            change = change_now(self.server, self.garden)
            for n in range(10**9):
                change = self.one(f"{self.name}-{n}", an_edit(self.dice, self.tree, self.alone and n > 5), change)
        except GONE:
            pass
        except Broken as broken:
            self.broken = broken

    def one(self, command, sent, change):
        sent.body.update(command=command, change=change)
        while True:
            self.garden.unanswered[command] = sent
            status, answer = post(self.server, self.garden, sent)
            if status == 200:
                self.garden.note(command, sent, answer["head"]["change"], answer["head"]["revision"])
                return answer["head"]["change"]
            claim(status == 409 and answer["error"]["code"] == "stale", f"an edit is refused: {status} {answer}")
            del self.garden.unanswered[command]  # the other client was quicker: not done
            sent.body["change"] = change_now(self.server, self.garden)


class Maker(threading.Thread):
    """Puts new gardens on the shelf until there is no answer."""

    def __init__(self, server, garden):
        super().__init__()
        self.server, self.garden = server, garden

    def run(self):
        try:
            while True:
                status, answer = self.server.ask("POST", "/api/gardens", {"document": GARDEN})
                if status == 201:
                    self.garden.kept.add(answer["id"])
        except GONE:
            pass


def check_edit(copy, revision, sent):
    """A revision is its parent with this one edit."""
    claim(revision in copy.rows, f"revision {revision} is there: {sent.body}")
    after, expected = figures(copy.document(revision)), figures(copy.document(copy.parent(revision)))
    x, y, height = expected[sent.body["thing"]]
    if "move_m" in sent.body:
        x, y = round(x + sent.body["move_m"][0], 2), round(y + sent.body["move_m"][1], 2)
    else:
        height = sent.body["set"]["height_m"]
    expected[sent.body["thing"]] = (x, y, height)
    claim(after == expected, f"revision {revision} is its parent with {sent.body}, not {after}")


def check_file(garden):
    """What SQLite finds in the file as it lies there. Out: the commands without an answer that were done."""
    copy = Copy(garden.path)
    for command, answered in garden.answered.items():
        if command in garden.checked:
            continue
        claim(command in copy.commands, f"{command} was answered and is not in the file")
        claim(copy.commands[command] == answered.sent.body["change"] + 1, f"{command} was made on another change")
        if answered.sent.kind == "edits":
            check_edit(copy, answered.revision, answered.sent)
        garden.checked.add(command)
    strange = set(copy.commands) - set(garden.answered) - set(garden.unanswered)
    claim(not strange, f"commands that nobody sent: {strange}")
    done = sorted((copy.commands[c], c) for c in garden.unanswered if c in copy.commands)
    claim(sorted(copy.commands.values()) == list(range(2, copy.change + 1)), "each change is that of one command")
    last = max([garden.head[0], *(change for change, _ in done)])
    claim(copy.change == last, f"change {copy.change} is that of the last answer, {garden.head}, or of {done}")
    claim(last > garden.head[0] or copy.revision == garden.head[1], "the head is the last that was answered")
    edits = [command for _, command in done if garden.unanswered[command].kind == "edits"]
    made = sorted(set(copy.rows) - garden.known)
    claim(len(made) == len(edits), f"revisions without a command: {made}, {edits}")
    for revision, command in zip(made, edits):
        check_edit(copy, revision, garden.unanswered[command])
        garden.known.add(revision)
    garden.checked.update(command for _, command in done)
    return copy, {command: change for change, command in done}


def send_again(server, garden, copy, done, dice):
    """Commands without an answer, sent again, some twice: each ends up done once."""
    claim(set(done) <= set(garden.unanswered), "what was done without an answer was sent")
    for command, sent in sorted(garden.unanswered.items(), key=lambda one: done.get(one[0], 10**12)):
        status, answer = post(server, garden, sent)
        if status == 409 and command not in done:  # the other client's came in between
            sent.body["change"] = change_now(server, garden)
            status, answer = post(server, garden, sent)
        claim(status == 200, f"{command} sent again is answered, not {status}: {answer}")
        head = answer["head"]
        if dice.random() < 0.5:
            status, twice = post(server, garden, sent)
            claim(status == 200 and twice["head"]["change"] == head["change"], f"{command} was done a second time")
        if command in done:
            claim(head["change"] >= copy.change, f"{command} leads back")
            garden.note(command, sent, done[command], 0)
            garden.head = max(garden.head, (head["change"], head["revision"]))
        else:
            garden.note(command, sent, head["change"], head["revision"])


def check_server(server, garden, copy):
    """What the next server finds: the same head, the same document, the same list."""
    status, listed = server.ask("GET", f"{garden.at}/revisions")
    claim(status == 200, f"the garden opens: {listed}")
    head = listed["head"]
    claim((head["change"], head["revision"]) == (copy.change, copy.revision), "the head is the file's")
    newest = sorted(copy.rows, reverse=True)[:200]
    claim([row["id"] for row in listed["revisions"]] == newest, "the list has every revision")
    status, document = server.ask("GET", f"{garden.at}/document")
    claim(status == 200 and document.decode() == copy.text(copy.revision), "the document is the head's")
    _, shelf = server.ask("GET", "/api/gardens")
    claim(all(row["error"] is None for row in shelf["gardens"]), f"every garden on the shelf opens: {shelf}")
    missing = garden.kept - {row["id"] for row in shelf["gardens"]}
    claim(not missing, f"gardens whose making was answered are gone: {missing}")


def kill_while_opening(binary, garden, dice):
    """A server that is killed in its first moments, with the last one's journal to take up."""
    server = Server(binary, garden.folder, wait=False)
    if dice.random() < 0.7 and server.listen():
        asker = threading.Thread(target=ask_quietly, args=(server, f"{garden.at}/revisions"))
        asker.start()
        time.sleep(dice.uniform(0, 0.01))
        server.process.kill()
        asker.join()
    else:
        time.sleep(dice.uniform(0, 0.03))
    server.kill()


def ask_quietly(server, path):
    try:
        server.ask("GET", path)
    except GONE:
        pass


def stream_and_kill(server, garden, run, dice, tally):
    clients = dice.choice([1, 2])
    threads = [Client(server, garden, f"run-{run}-{TREES[n]}", TREES[n], random.Random(dice.random()), clients == 1)
               for n in range(clients)]
    if dice.random() < 0.2 and len(garden.kept) < 20:
        threads.append(Maker(server, garden))
    for thread in threads:
        thread.start()
    if garden.library and dice.random() < 0.6:
        garden.kill_at.write_text(str(int(math.exp(dice.uniform(0, math.log(MOST_CALLS))))))
        for thread in threads:
            thread.join(timeout=10)
        tally["killed at a call"] += server.process.poll() is not None
        garden.kill_at.unlink()
    else:
        time.sleep(dice.uniform(0, LONGEST_S))
    server.process.kill()
    for thread in threads:
        thread.join()
        if getattr(thread, "broken", None):
            raise thread.broken
    server.kill()


def start(binary, garden):
    preload = {"LD_PRELOAD": str(garden.library), "KILL_AT_FILE": str(garden.kill_at)} if garden.library else {}
    return Server(binary, garden.folder, env=os.environ | preload)


def one_garden(given, folder, runs, dice, tally):
    binary, garden = given.binary.resolve(), Garden(folder, given.at and given.at.resolve())
    server = start(binary, garden)
    claim(server.ask("POST", "/api/gardens", {"document": GARDEN}) == (201, {"id": "damage"}), "a garden is made")
    for run in runs:
        stream_and_kill(server, garden, run, dice, tally)
        copy, done = check_file(garden)
        tally["without an answer, there"] += len(done)
        tally["without an answer, not there"] += len(garden.unanswered) - len(done)
        if dice.random() < 0.15:
            kill_while_opening(binary, garden, dice)
            tally["killed while opening"] += 1
        server = start(binary, garden)
        check_server(server, garden, copy)
        send_again(server, garden, copy, done, dice)
    server.end()
    copy, done = check_file(garden)
    claim(not done and not garden.unanswered, "nothing is left without an answer")
    tally["answered"] += len(garden.answered)
    tally["gardens made meanwhile"] += len(garden.kept)


def main():
    options = argparse.ArgumentParser()
    options.add_argument("binary", type=pathlib.Path)
    options.add_argument("--at", type=pathlib.Path, help="the library that kills at a call")
    options.add_argument("--runs", type=int, default=50)
    options.add_argument("--seed", type=int, default=random.SystemRandom().randrange(10**9))
    given = options.parse_args()
    print(f"kill_test: seed {given.seed}, {given.runs} runs", flush=True)
    dice, tally, begun = random.Random(given.seed), collections.Counter(), time.monotonic()
    for first in range(0, given.runs, RUNS_A_GARDEN):
        runs = range(first, min(given.runs, first + RUNS_A_GARDEN))
        with tempfile.TemporaryDirectory(prefix="spadework-kill-") as folder:
            try:
                one_garden(given, pathlib.Path(folder) / "gardens", runs, dice, tally)
            except Broken as broken:
                sys.exit(f"kill_test: seed {given.seed}, runs {runs.start} to {runs.stop - 1}: broken: {broken}")
    print(f"kill_test: {given.runs} kills in {time.monotonic() - begun:.0f} s; "
          + "; ".join(f"{what}: {n}" for what, n in tally.items()))


if __name__ == "__main__":
    main()
