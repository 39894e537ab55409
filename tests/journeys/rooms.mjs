// Folders that fill up or may only be read, as a person's disk does; each with what opens it again.
import { execFileSync, spawnSync } from "node:child_process";
import { chmodSync, chownSync, closeSync, copyFileSync, mkdirSync, mkdtempSync, openSync, rmSync, statSync, writeSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Served } from "./browser.mjs";

const nobody = 65534;
const is_root = process.getuid() === 0;

/** A folder and a copy of the program that everybody may use. */
function open_room(program) {
  const room = mkdtempSync(join(tmpdir(), "spadework-journey-"));
  chmodSync(room, 0o755);
  const [folder, own] = [join(room, "gardens"), join(room, "spadework")];
  mkdirSync(folder);
  copyFileSync(program, own);
  chmodSync(own, 0o755);
  return { room, folder, own };
}

/** A server whose files can be made read-only midway: `close(garden)` and `open(garden)`. Root may write
 * whatever the permissions say, so the program is then somebody else. */
export async function may_close(program) {
  const { room, folder, own } = open_room(program);
  if (is_root) chownSync(folder, nobody, nobody);
  const served = await Served.start(own, { folder, as: is_root ? { uid: nobody, gid: nobody } : {} });
  const chmod = (to) => (garden) => chmodSync(join(folder, `${garden}.garden`), to);
  return { served, close: chmod(0o444), open: chmod(0o644), leave: () => rmSync(room, { recursive: true, force: true }) };
}

const small_disk = (how) => [...how, "sh", "-c", 'mount -t tmpfs -o size=6m tmpfs "$0" && exec "$@"'];

/** How a disk can be mounted for a process of its own; null: it cannot be here. */
function own_mounts() {
  for (const how of [["unshare", "--mount"], ["unshare", "--user", "--map-root-user", "--mount"]])
    if (spawnSync(how[0], [...how.slice(1), "mount", "-t", "tmpfs", "tmpfs", "/mnt"]).status === 0) return how;
  return null;
}

/** A server on a small disk: `fill()` takes its last byte, `empty()` makes room. Where nothing can be
 * mounted, a limit on the size of files stands in for it, as for a quota. */
export async function may_fill(program) {
  const { room, folder, own } = open_room(program);
  const how = own_mounts();
  const leave = () => rmSync(room, { recursive: true, force: true });
  if (how === null) {
    const served = await Served.start(own, { folder });
    const limit = (soft) => execFileSync("prlimit", ["--pid", String(served.process.pid), `--fsize=${soft}:unlimited`]);
    return { served, leave, is: "a limit on files", fill: () => limit(1), empty: () => limit("unlimited") };
  }
  const served = await Served.start(own, { folder, before: [...small_disk(how), folder] });
  const ballast = () => join("/proc", String(served.process.pid), "root", folder, "ballast");
  const fill = () => {
    const file = openSync(ballast(), "a");
    for (const size of [65536, 4096, 1]) {
      try {
        for (;;) if (writeSync(file, Buffer.alloc(size)) < size) break;
      } catch (error) {
        if (error.code !== "ENOSPC") throw error;
      }
    }
    closeSync(file);
  };
  return { served, leave, is: `a disk by ${how.join(" ")}`, fill, empty: () => rmSync(ballast()), size: () => statSync(ballast()).size };
}
