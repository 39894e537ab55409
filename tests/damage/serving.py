"""What the damage tests share: a server that can be killed, requests, and a garden file read without Spadework."""
import http.client
import json
import pathlib
import re
import shutil
import sqlite3
import subprocess
import tempfile
import tomllib
import zlib

GARDEN = """format = 1
[garden]
title = "Damage"
latitude_deg = 48.41
longitude_deg = -4.36
time_zone = "Europe/Paris"
elevation_m = 60
[boundary]
outline = [[0,0],[9,0],[9,8],[0,8]]
[[wall]]
id = "lane-wall"
line = [[0,0.2],[9,0.2]]
height_m = 1.6
kind = "stone"
[[tree]]
id = "medlar"
kind = "medlar"
at = [3, 4]
height_m = 5
crown_width_m = 4
[[tree]]
id = "hazel"
kind = "hazel"
at = [6, 4]
height_m = 4
crown_width_m = 3
"""


class Broken(Exception):
    """A promise that was not kept."""


def claim(holds, what):
    if not holds:
        raise Broken(what)


class Server:
    """`spadework serve` over a folder."""

    def __init__(self, binary, folder, wait=True, **popen):
        command = [str(binary), "serve", "--port", "0", "--no-open", "--data", str(folder)]
        self.process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, **popen)
        self.port = None
        if wait:
            self.listen()

    def listen(self):
        """Reads the address from the first line; nothing when the server was ended before."""
        line = self.process.stdout.readline()
        found = re.search(r"http://127\.0\.0\.1:(\d+)/", line)
        self.port = int(found.group(1)) if found else None
        return self.port

    def ask(self, method, path, body=None, timeout=30):
        """The status and what the answer says; raises OSError or HTTPException where there is none."""
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=timeout)
        try:
            headers = {"X-Spadework": "1", "Content-Type": "application/json"}
            connection.request(method, path, None if body is None else json.dumps(body), headers)
            answer = connection.getresponse()
            data = answer.read()
        finally:
            connection.close()
        if answer.getheader("Content-Type", "").startswith("application/json"):
            data = json.loads(data)
        return answer.status, data

    def kill(self):
        self.process.kill()
        self.process.wait()
        self.process.stdout.close()
        self.process.stderr.close()

    def end(self):
        self.process.terminate()
        code = self.process.wait(timeout=30)
        self.process.stdout.close()
        self.process.stderr.close()
        claim(code == 0, f"the server ends well when asked to, not with {code}")


def error_in_plain_words(status, data, wanted, words):
    """The contract's error: its status, words for a person, a place, a cure."""
    claim(status == wanted, f"the answer is {wanted}, not {status}: {data}")
    error = data["error"]
    claim(re.search(words, error["message"]), f"“{error['message']}” says {words}")
    claim(error["where"] and error["hint"], f"it says where and how to mend it: {error}")
    said = re.sub(r"/\S+", "", error["message"] + " " + error["hint"])
    claim(not re.search(r"sqlite|errno|I/O|database|0x", said, re.I), f"in plain words: {error}")


class Copy:
    """A garden file and its journal as they lie there, copied and opened by SQLite alone."""

    def __init__(self, path):
        with tempfile.TemporaryDirectory() as folder:
            copy = pathlib.Path(folder) / "copy.garden"
            shutil.copy(path, copy)
            journal = pathlib.Path(f"{path}-wal")
            if journal.exists():
                shutil.copy(journal, f"{copy}-wal")
            with sqlite3.connect(copy) as base:
                self.whole = [row[0] for row in base.execute("PRAGMA integrity_check")] == ["ok"]
                self.strays = base.execute("PRAGMA foreign_key_check").fetchall()
                self.revision, self.change = base.execute("SELECT revision, change FROM head").fetchone()
                self.commands = dict(base.execute("SELECT id, change FROM command"))
                self.rows = {row[0]: row[1:] for row in base.execute("SELECT id, parent, text, bytes FROM revision")}
            base.close()
        claim(self.whole and not self.strays, "the file passes its integrity check")

    def text(self, revision):
        """The document of a revision; it must be whole."""
        _, packed, size = self.rows[revision]
        text = zlib.decompress(packed)
        claim(len(text) == size, f"revision {revision} has all its bytes")
        return text.decode()

    def document(self, revision):
        return tomllib.loads(self.text(revision))

    def parent(self, revision):
        return self.rows[revision][0]


def figures(document):
    """What the tests edit: where each tree stands, and how high it is."""
    return {tree["id"]: (round(tree["at"][0], 2), round(tree["at"][1], 2), tree["height_m"])
            for tree in document["tree"]}
