import { beforeEach, expect, test } from "vitest";
import { type Edit, Gone, type Head, Refused } from "../api";
import { type Kept, Queue } from "./queue";

function head(change: number): Head {
  return { change, revision: change, undo: "", redo: "", made: "", read_only: false };
}
const move = (thing: string) => ({ edit: { scheme: "proposed", thing, move_m: [1, 0] } });

/** A program that does each command once, however often it is sent. */
class Program {
  change = 1;
  done: { command: string; change: number; thing: string }[] = [];
  sent = 0;
  is_there = true;
  loses_answers = false;
  refuses: Refused | null = null;

  send(kept: Kept): Promise<Head> {
    if (!this.is_there) return Promise.reject(new Gone("gone"));
    this.sent += 1;
    if (this.refuses !== null) return Promise.reject(this.refuses);
    const again = this.done.some((one) => one.command === kept.command);
    if (!again) {
      if (kept.change !== this.change)
        return Promise.reject(new Refused(409, { code: "stale", where: "", message: "Changed.", hint: "" }, []));
      this.change += 1;
      this.done.push({ command: kept.command, change: this.change, thing: kept.edit?.thing ?? "" });
    }
    return this.loses_answers ? Promise.reject(new Gone("cut off")) : Promise.resolve(head(this.change));
  }
}

let program: Program;
let known: number;
let stored: string;
let ids: number;
let no_room: string;
let told: string;
let altered: Set<string>; // what another window altered meanwhile

function queue(): Queue {
  return new Queue({
    send: (kept) => program.send(kept),
    change_of: () => known,
    clash: (kept) =>
      Promise.resolve(kept.was !== undefined && altered.has(kept.edit?.thing ?? "") ? { message: "Altered meanwhile.", hint: "" } : null),
    renamed: (kept) => kept.edit?.rename ?? null,
    change_now: () => (program.is_there ? Promise.resolve((known = program.change)) : Promise.reject(new Gone("gone"))),
    done: (_, now) => (known = now.change),
    told: (_, why) => (told = why.message),
    gone: () => {},
    no_room: (why) => (no_room = why.message),
    waits: () => {},
    store: (kept) => (stored = JSON.stringify(kept)),
    fresh_id: () => `command-${++ids}`,
  });
}

beforeEach(() => {
  program = new Program();
  known = 1;
  stored = "[]";
  ids = 0;
  no_room = "";
  told = "";
  altered = new Set();
});

test("what is refused after a restart is told all the same", async () => {
  const edits = queue();
  altered.add("hedge");
  program.change = 9;
  edits.take_up([{ command: "old", change: 3, garden: "g", ...move("hedge"), was: "[]" }]);
  await new Promise((resolve) => setTimeout(resolve));
  expect([told, edits.length]).toEqual(["Altered meanwhile.", 0]);
});

test("what another window altered just so meanwhile is not written over, and said", async () => {
  const edits = queue();
  program.change = 4; // the other window's
  altered.add("hedge");
  expect(await edits.add("g", { ...move("medlar"), was: "[]" })).toBeNull();
  program.change = 9;
  expect(await edits.add("g", { ...move("hedge"), was: "[]" })).toEqual({ message: "Altered meanwhile.", hint: "" });
  expect(program.done.map((one) => one.thing)).toEqual(["medlar"]);
});

test("edits of this window on one thing follow each other without a word", async () => {
  const edits = queue();
  altered.add("hedge");
  const first = edits.add("g", { ...move("hedge"), was: "[]" });
  const second = edits.add("g", { ...move("hedge"), was: "[]" });
  expect(await first).toBeNull();
  program.change += 1;
  expect(await second).toBeNull();
  expect(program.done.length).toBe(2);
});

const things_done = () => program.done.map((one) => one.thing);

test("edits are sent once, in the order in which they were made", async () => {
  const edits = queue();
  const told = await Promise.all(["a", "b", "c"].map((id) => edits.add("g", move(id) as never)));
  expect(told).toEqual([null, null, null]);
  expect(things_done()).toEqual(["a", "b", "c"]);
  expect(program.sent).toBe(3);
  expect(edits.length).toBe(0);
});

test("while nobody answers they wait, and go in order when somebody does", async () => {
  program.is_there = false;
  const edits = queue();
  const told = ["a", "b"].map((id) => edits.add("g", move(id) as never));
  await new Promise((resolve) => setTimeout(resolve));
  expect(edits.length).toBe(2);
  program.is_there = true;
  await edits.go_on();
  expect(await Promise.all(told)).toEqual([null, null]);
  expect(things_done()).toEqual(["a", "b"]);
});

test("an edit whose answer was lost is not done twice", async () => {
  program.loses_answers = true;
  const edits = queue();
  const told = edits.add("g", move("a") as never);
  await new Promise((resolve) => setTimeout(resolve));
  program.loses_answers = false;
  await edits.go_on();
  expect(await told).toBeNull();
  expect(things_done()).toEqual(["a"]);
  expect(program.sent).toBe(2);
});

test("edits outlive a restart, with the command they were sent with", async () => {
  program.loses_answers = true;
  const before = queue();
  void before.add("g", move("a") as never);
  void before.add("g", move("b") as never);
  await new Promise((resolve) => setTimeout(resolve));
  program.loses_answers = false;
  ids = 100;
  const after = queue();
  after.take_up(JSON.parse(stored) as Kept[]);
  await new Promise((resolve) => setTimeout(resolve));
  expect(things_done()).toEqual(["a", "b"]);
  expect(stored).toBe("[]");
});

test("made on an older garden, an edit goes again as another command", async () => {
  program.change = 5;
  const edits = queue();
  expect(await edits.add("g", move("a") as never)).toBeNull();
  expect(program.done).toEqual([{ command: "command-2", change: 6, thing: "a" }]);
});

test("what is refused is told, and the next goes on", async () => {
  const edits = queue();
  program.refuses = new Refused(422, { code: "out_of_range", where: "", message: "Too high.", hint: "At most 60 m." }, []);
  expect(await edits.add("g", move("a") as never)).toEqual({ message: "Too high.", hint: "At most 60 m." });
  program.refuses = null;
  expect(await edits.add("g", move("b") as never)).toBeNull();
});

test("on a full disk edits wait, as when nobody answers, and go when there is room", async () => {
  program.refuses = new Refused(507, { code: "cannot_write", where: "", message: "The disk is full.", hint: "" }, []);
  const edits = queue();
  const told = ["a", "b"].map((id) => edits.add("g", move(id) as never));
  await new Promise((resolve) => setTimeout(resolve));
  expect([no_room, edits.length, (JSON.parse(stored) as Kept[]).length]).toEqual(["The disk is full.", 2, 2]);
  program.refuses = null;
  await edits.go_on();
  expect(await Promise.all(told)).toEqual([null, null]);
  expect(things_done()).toEqual(["a", "b"]);
});

test("what a full disk does not take can be left away", async () => {
  program.refuses = new Refused(507, { code: "cannot_write", where: "", message: "The disk is full.", hint: "" }, []);
  const edits = queue();
  const told = edits.add("g", move("a") as never);
  await new Promise((resolve) => setTimeout(resolve));
  expect(edits.drop_last("g", "undo")).toBe(true);
  expect(await told).toBeNull();
  program.refuses = null;
  await edits.go_on();
  expect(things_done()).toEqual([]);
});

test("an undo on an older garden is told, not tried again", async () => {
  program.change = 5;
  const edits = queue();
  const told = await edits.add("g", { step: { step: "undo" } });
  expect(told?.message).toBe("Changed.");
});

test("what may have been done is undone by a step, and that by a redo alone", async () => {
  program.is_there = false;
  const edits = queue();
  const tried = edits.add("g", move("a") as never);
  await new Promise((resolve) => setTimeout(resolve));
  expect(edits.drop_last("g", "undo")).toBe(false); // it was sent, and nobody answered
  const undo = edits.add("g", { step: { step: "undo" } });
  expect(edits.drop_last("g", "undo")).toBe(false); // a second undo is another
  expect(edits.drop_last("g", "redo")).toBe(true);
  expect(await undo).toBeNull();
  expect(edits.length).toBe(1);
  await new Promise((resolve) => setTimeout(resolve)); // what was tried meanwhile has failed
  program.is_there = true;
  await edits.go_on();
  await tried;
  expect(things_done()).toEqual(["a"]);
});

test("undoing what was never sent leaves it away", async () => {
  program.is_there = false;
  const edits = queue();
  const first = edits.add("g", move("a") as never);
  const second = edits.add("g", move("b") as never);
  await new Promise((resolve) => setTimeout(resolve));
  expect(edits.drop_last("g", "undo")).toBe(true);
  expect(await second).toBeNull();
  program.is_there = true;
  await edits.go_on();
  await first;
  expect(things_done()).toEqual(["a"]);
});

test("what was left away is brought back, one by one, until something else is done", async () => {
  program.is_there = false;
  const edits = queue();
  const tried = edits.add("g", move("a") as never);
  for (const name of ["b", "c"]) void edits.add("g", move(name) as never);
  await new Promise((resolve) => setTimeout(resolve));
  expect([edits.drop_last("g", "undo"), edits.drop_last("g", "undo"), edits.length]).toEqual([true, true, 1]);
  expect(edits.bring_back("another")).toBe(false);
  expect([edits.bring_back("g"), edits.length]).toEqual([true, 2]);
  void edits.add("g", move("d") as never);
  expect(edits.bring_back("g")).toBe(false);
  await new Promise((resolve) => setTimeout(resolve));
  program.is_there = true;
  await edits.go_on();
  await tried;
  expect(things_done()).toEqual(["a", "b", "d"]);
});

test("what waits on a thing goes on it by its new name", async () => {
  program.is_there = false;
  const all = queue();
  const named = all.add("g", { edit: { scheme: "proposed", thing: "medlar", rename: "old-medlar" }, was: "medlar" });
  const moved = all.add("g", move("medlar"));
  const both: Edit = { scheme: "proposed", all: [{ thing: "medlar", take_away: true }, { thing: "pine", take_away: true }] };
  const parts = all.add("g", { edit: both });
  await new Promise((resolve) => setTimeout(resolve));
  program.is_there = true;
  await all.go_on();
  await Promise.all([named, moved, parts]);
  expect(things_done()).toEqual(["medlar", "old-medlar", ""]);
  expect(both.all?.map((part) => part["thing"])).toEqual(["old-medlar", "pine"]);
});
