#!/usr/bin/env python3
"""Nothing lost: a disk that fills up, a file that may only be read from some moment on, and read-only media.

Where this machine lets us mount, in a name space of our own, the full disk is a small tmpfs and the media are
remounted; where it does not, a limit on the size of files and changed permissions stand in, and the output says so.

disk_test.py BINARY
"""
import contextlib
import os
import pathlib
import resource
import shutil
import signal
import subprocess
import sys
import tempfile

sys.path.insert(0, str(pathlib.Path(__file__).parent))
from serving import GARDEN, Broken, Copy, Server, claim, error_in_plain_words, figures

NOBODY = 65534
AT = "/api/gardens/damage"


class Editor:
    """Heights typed one after the other; knows which were answered."""

    def __init__(self, server):
        self.sent, self.done = 0, []
        self.use(server)

    def use(self, server):
        self.server = server

    def change(self):
        status, state = self.server.ask("GET", f"{AT}/revisions")
        claim(status == 200, f"the garden can be looked at: {state}")
        return state["head"]["change"]

    def edit(self):
        """The status and the answer of one more edit."""
        self.sent += 1
        height = round(2 + self.sent * 1e-4, 4)
        body = {"command": f"edit-{self.sent}", "change": self.change(), "scheme": "found", "thing": "medlar",
                "set": {"height_m": height}}
        status, answer = self.server.ask("POST", f"{AT}/edits", body)
        if status == 200:
            self.done.append((body["command"], answer["head"]["revision"], height))
        return status, answer

    def must_edit(self):
        status, answer = self.edit()
        claim(status == 200, f"an edit is taken: {answer}")

    def until_refused(self, most=20000):
        for _ in range(most):
            status, answer = self.edit()
            if status != 200:
                return status, answer
        raise Broken("no edit was ever refused")

    def check(self, path):
        """Every edit that was answered is in the file and is what the server shows; no other is."""
        copy = Copy(path)
        claim(set(copy.commands) == {command for command, _, _ in self.done}, "what was answered is there, no more")
        for _, revision, height in self.done:
            claim(figures(copy.document(revision))["medlar"][2] == height, f"revision {revision} has its figure")
        status, document = self.server.ask("GET", f"{AT}/document")
        claim(status == 200 and document.decode() == copy.text(copy.revision), "the server shows the head")
        status, state = self.server.ask("GET", f"{AT}?scheme=found")
        claim(status == 200, f"the sheet can be looked at: {state}")
        return state["head"]["read_only"]


def begin(server):
    status, answer = server.ask("POST", "/api/gardens", {"document": GARDEN})
    claim(status == 201, f"a garden is made: {answer}")
    return Editor(server)


def full_disk(binary, folder, make_room, **popen):
    """`make_room` is given the server."""
    path = folder / "damage.garden"
    server = Server(binary, folder, **popen)
    editor = begin(server)
    status, answer = editor.until_refused()
    error_in_plain_words(status, answer, 507, "disk is full")
    error_in_plain_words(*editor.edit(), 507, "disk is full")
    editor.check(path)
    make_room(server)
    editor.must_edit()
    editor.check(path)
    return server, editor


def full_tmpfs(binary, folder):
    """A full disk, also over a kill and an orderly end; new gardens on it."""
    mount("-t", "tmpfs", "-o", "size=2m", "tmpfs", folder)
    ballast = folder / "ballast"
    ballast.write_bytes(bytes(700_000))
    server, editor = full_disk(binary, folder, lambda _: ballast.unlink())
    path = folder / "damage.garden"
    for ending in ["kill", "end"]:
        fill(ballast)
        status, answer = editor.until_refused()
        error_in_plain_words(status, answer, 507, "disk is full")
        status, answer = server.ask("POST", "/api/gardens", {"document": GARDEN})
        error_in_plain_words(status, answer, 507, "disk is full")
        claim(not list(folder.glob("*.part*")), "nothing half made is left")
        getattr(server, ending)()
        fill(ballast)
        server = Server(binary, folder)
        editor.use(server)
        editor.check(path)
        error_in_plain_words(*editor.edit(), 507, "disk is full")
        editor.check(path)
        ballast.unlink()
        editor.must_edit()
        claim(not editor.check(path), "it is no longer told to be read-only")
    claim(server.ask("POST", "/api/gardens", {"document": GARDEN})[0] == 201, "there is room for a garden again")
    server.end()
    editor.use(server := Server(binary, folder))
    editor.check(path)
    server.end()
    return len(editor.done)


def fill(ballast):
    """Takes the last byte of the disk."""
    with contextlib.suppress(OSError), open(ballast, "ab", buffering=0) as file:
        for size in (65536, 4096, 1):
            with contextlib.suppress(OSError):
                while file.write(bytes(size)) == size:
                    pass


def small_files(binary, folder):
    """Files that may not grow beyond a size: what a quota looks like to a program."""
    def limit():
        resource.setrlimit(resource.RLIMIT_FSIZE, (400_000, resource.RLIM_INFINITY))

    def make_room(server):
        resource.prlimit(server.process.pid, resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY,) * 2)

    server, editor = full_disk(binary, folder, make_room, preexec_fn=limit)
    server.end()
    return len(editor.done)


def read_only_midway(binary, folder, close, reopen, **popen):
    """`close` makes the garden read-only, `reopen` makes it writable."""
    path = folder / "damage.garden"
    server = Server(binary, folder, **popen)
    editor = begin(server)
    for _ in range(20):
        editor.must_edit()
    for ending in [None, "kill", "end"]:
        close()
        if ending:
            getattr(server, ending)()
            editor.use(server := Server(binary, folder, **popen))
        claim(editor.check(path), "the state says that it may only be read")
        error_in_plain_words(*editor.edit(), 403, "only be read")
        undo = {"command": "undo", "change": editor.change(), "step": "undo"}
        error_in_plain_words(*server.ask("POST", f"{AT}/steps", undo), 403, "only be read")
        editor.check(path)
        reopen()
        claim(not editor.check(path), "the state says that it may be written again")
        editor.must_edit()
        editor.check(path)
    server.end()
    return len(editor.done)


def chmod_midway(binary, folder):
    who = {}
    if os.geteuid() == 0:  # root may write whatever the permissions say
        os.chown(folder, NOBODY, NOBODY)
        who = {"user": NOBODY, "group": NOBODY, "extra_groups": []}
    path = folder / "damage.garden"
    file_only = read_only_midway(binary, folder, lambda: path.chmod(0o444), lambda: path.chmod(0o644), **who)
    path.unlink()
    folder_too = read_only_midway(binary, folder, lambda: (path.chmod(0o444), folder.chmod(0o555)),
                                  lambda: (path.chmod(0o644), folder.chmod(0o755)), **who)
    return file_only + folder_too


def bind_midway(binary, folder):
    """The folder mounted once more over itself, to be read."""
    def close():
        mount("--bind", folder, folder)
        mount("-o", "remount,bind,ro", folder)

    def reopen():
        subprocess.run(["umount", "--lazy", folder], check=True)

    return read_only_midway(binary, folder, close, reopen)


def media(binary, folder):
    """Read-only from the start: after an orderly end, and with the journal that a kill left."""
    for ending in ["end", "kill", "kill, without the index of the journal"]:
        disk = folder / ending
        disk.mkdir()
        mount("-t", "tmpfs", "-o", "size=8m", "tmpfs", disk)
        editor = begin(server := Server(binary, disk))
        for _ in range(10):
            editor.must_edit()
        getattr(server, ending.split(",")[0])()
        if "without" in ending:
            (disk / "damage.garden-shm").unlink()
        mount("-o", "remount,bind,ro", disk)
        editor.use(server := Server(binary, disk))
        if "without" in ending:  # never shown without its last edits
            error_in_plain_words(*server.ask("GET", AT), 500, "not closed in order")
            row = server.ask("GET", "/api/gardens")[1]["gardens"][0]
            claim("not closed" in row["error"]["message"], f"the shelf says so too: {row}")
            Copy(disk / "damage.garden")  # and as the error says, a copy opens
        else:
            look_only(editor, disk / "damage.garden")
        status, answer = server.ask("POST", "/api/gardens", {"document": GARDEN})
        error_in_plain_words(status, answer, 403, "only be read")
        server.end()
        subprocess.run(["umount", "--lazy", disk], check=True)
    return 30


def look_only(editor, path):
    claim(editor.check(path), "the state says that it may only be read")
    error_in_plain_words(*editor.edit(), 403, "only be read")
    _, shelf = editor.server.ask("GET", "/api/gardens")
    claim([(row["error"], row["read_only"]) for row in shelf["gardens"]] == [(None, True)], f"the shelf: {shelf}")


def mount(*arguments):
    subprocess.run(["mount", *map(str, arguments)], check=True, capture_output=True)


def in_own_mounts():
    """Starts this test again where its mounts are its own; how, or nothing."""
    for how in [["unshare", "--mount"], ["unshare", "--user", "--map-root-user", "--mount"]]:
        probe = [*how, "mount", "-t", "tmpfs", "tmpfs", "/mnt"]
        with contextlib.suppress(OSError):
            if subprocess.run(probe, capture_output=True).returncode == 0:
                return how
    return None


def run(binary, what):
    with tempfile.TemporaryDirectory(prefix="spadework-disk-", ignore_cleanup_errors=True) as folder:
        os.chmod(folder, 0o755)
        own, garden = pathlib.Path(folder) / "spadework", pathlib.Path(folder) / "gardens"
        shutil.copy(binary, own)  # where everybody may start it
        own.chmod(0o755)
        garden.mkdir()
        try:
            edits = what(own, garden)
        finally:
            subprocess.run(["umount", "--recursive", "--lazy", garden], capture_output=True)
    print(f"disk_test: {what.__name__}: {edits} edits answered, all there", flush=True)


def main():
    binary = pathlib.Path(sys.argv[1]).resolve()
    mounted = [full_tmpfs, bind_midway, media]
    try:
        if len(sys.argv) > 2:
            for what in mounted:
                run(binary, what)
            return
        for what in [small_files, chmod_midway]:
            run(binary, what)
    except Broken as broken:
        sys.exit(f"disk_test: {what.__name__}: broken: {broken}")
    how = in_own_mounts()
    if how is None:
        print("disk_test: nothing can be mounted here: a limit on the size of files stood for the full disk, changed "
              "permissions for read-only media")
        return
    print(f"disk_test: mounts by {' '.join(how)}", flush=True)
    sys.exit(subprocess.run([*how, sys.executable, __file__, str(binary), "mounted"]).returncode)


if __name__ == "__main__":
    main()
