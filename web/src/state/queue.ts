// Edits in the order they were made: each sent once, kept while nobody answers, also over a restart.
import { Gone, Refused, type Edit, type Head } from "../api";
import { entry_of } from "./entries";

export type Step =
  | { step: "undo" | "redo" }
  | { step: "name"; name: string }
  | { step: "bring_back"; revision: number };

export interface Kept {
  command: string; // sent twice it is done once
  change: number | null; // what it is made on; null: not sent yet
  garden: string;
  edit?: Edit;
  step?: Step;
  was?: string; // what the edit alters, as it stood when it was made
}

export interface Told {
  message: string;
  hint: string;
  part?: string; // which value of the entry: "/mix/1/share"
}

export interface QueueWorld {
  send(kept: Kept): Promise<Head>;
  /** The garden's change as it is known here. */
  change_of(garden: string): number | null;
  /** Asks the program for the garden's change as it is now. */
  change_now(garden: string): Promise<number>;
  /** What another window did meanwhile to just what this edit alters; null: nothing. */
  clash(kept: Kept): Promise<Told | null>;
  done(kept: Kept, head: Head): void;
  /** The name that a thing got by an edit that was done; null: it has its own. */
  renamed(kept: Kept): string | null;
  /** Nobody answers: call `go_on` when someone does. */
  gone(): void;
  /** The program cannot write it down, as when the disk is full: call `go_on` now and then. */
  no_room(told: Told): void;
  /** What was refused, and nobody there asked for it: as after a restart. */
  told(kept: Kept, told: Told): void;
  /** How many wait, and what they are. */
  waits(kept: readonly Kept[]): void;
  store(kept: readonly Kept[]): void;
  fresh_id(): string;
}

const is_no_room = (no: Refused): boolean => no.status === 507;

const is_of_same = (one: Edit, other: Edit): boolean => one.thing === other.thing && entry_of(one) === entry_of(other);

type Settle = (told: Told | null) => void;

export class Queue {
  private waiting: Kept[] = [];
  private dropped: Kept[] = []; // edits that were never sent and are undone, the newest last
  private settle = new Map<string, Settle>();
  private running = false;

  constructor(private readonly world: QueueWorld) {}

  get length(): number {
    return this.waiting.length;
  }

  /** Takes up what was kept before a restart; it goes before what is new. */
  take_up(kept: readonly Kept[]): void {
    const known = new Set(this.waiting.map((one) => one.command));
    this.waiting = [...kept.filter((one) => !known.has(one.command)), ...this.waiting];
    this.note();
    void this.go_on();
  }

  add(garden: string, what: { edit: Edit; was?: string } | { step: Step }): Promise<Told | null> {
    // A step names what it does: it is of the garden as it is known now, and of no other.
    const change = "step" in what && this.waiting.length === 0 ? this.world.change_of(garden) : null;
    const kept: Kept = { command: this.world.fresh_id(), change, garden, ...what };
    if ("edit" in what) this.dropped = [];
    return new Promise((resolve) => {
      this.settle.set(kept.command, resolve);
      this.waiting.push(kept);
      this.note();
      void this.go_on();
    });
  }

  /** The newest that was never sent is simply not done, where that is what this step does: an undo
   * leaves away an edit or a redo, a redo an undo. False: it is another. */
  drop_last(garden: string, step: "undo" | "redo"): boolean {
    const last = this.waiting[this.waiting.length - 1];
    if (last === undefined || last.change !== null || last.garden !== garden) return false;
    const is_undo = last.step?.step === "undo";
    if (step === "undo" ? is_undo : !is_undo) return false;
    this.waiting.pop();
    if (last.edit !== undefined) this.dropped.push(last);
    this.finish(last, null);
    return true;
  }

  /** The edit that was left away last waits again. False: there is none, or something was done since. */
  bring_back(garden: string): boolean {
    const last = this.dropped.at(-1);
    if (last === undefined || last.garden !== garden) return false;
    this.dropped.pop();
    this.waiting.push(last);
    this.note();
    void this.go_on();
    return true;
  }

  async go_on(): Promise<void> {
    if (this.running) return;
    this.running = true;
    try {
      for (let next = this.waiting[0]; next !== undefined; next = this.waiting[0])
        await this.send_one(next);
    } catch (error) {
      if (error instanceof Gone) this.world.gone();
      else if (error instanceof Refused && is_no_room(error)) this.world.no_room({ message: error.problem.message, hint: error.problem.hint });
      else throw error;
    } finally {
      this.running = false;
    }
  }

  private async send_one(kept: Kept): Promise<void> {
    for (let again = false; ; again = true) {
      if (kept.change === null) {
        kept.change = this.world.change_of(kept.garden) ?? (await this.world.change_now(kept.garden));
        this.world.store(this.waiting);
      }
      try {
        const head = await this.world.send(kept);
        this.waiting.shift();
        // What follows on the same thing stands on this one, not on what it was made on.
        for (const one of this.waiting) if (one.edit !== undefined && kept.edit !== undefined && is_of_same(one.edit, kept.edit)) delete one.was;
        this.follow_name(kept);
        this.world.done(kept, head);
        this.finish(kept, null);
        return;
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        if (is_no_room(error)) {
          kept.change = null; // surely not done: it may be left away, or go on a later garden
          this.note();
          throw error;
        }
        if (error.status === 409 && kept.edit !== undefined && !again) {
          const clash = await this.world.clash(kept);
          if (clash === null) {
            await this.renew(kept);
            continue;
          }
          this.waiting.shift();
          this.finish(kept, clash);
          return;
        }
        this.waiting.shift();
        const { message, hint, part } = error.problem;
        this.finish(kept, { message, hint, ...(part === undefined ? {} : { part }) });
        return;
      }
    }
  }

  /** What waits and was made of a thing by its old name is of its new one. */
  private follow_name(kept: Kept): void {
    const [from, to] = [kept.edit?.thing, this.world.renamed(kept)];
    if (from === undefined || to === null) return;
    for (const one of this.waiting) {
      if (one.garden !== kept.garden || one.edit === undefined) continue;
      for (const part of [one.edit, ...((one.edit.all ?? []) as Partial<Edit>[])]) if (part.thing === from) part.thing = to;
    }
  }

  /** Another window was quicker: the same edit on the garden as it is now is another command. */
  private async renew(kept: Kept): Promise<void> {
    const change = await this.world.change_now(kept.garden);
    const settle = this.settle.get(kept.command);
    this.settle.delete(kept.command);
    kept.command = this.world.fresh_id();
    kept.change = change;
    if (settle !== undefined) this.settle.set(kept.command, settle);
    this.world.store(this.waiting);
  }

  private finish(kept: Kept, told: Told | null): void {
    this.note();
    const settle = this.settle.get(kept.command);
    this.settle.delete(kept.command);
    if (settle !== undefined) settle(told);
    else if (told !== null) this.world.told(kept, told);
  }

  private note(): void {
    this.world.store(this.waiting);
    this.world.waits(this.waiting);
  }
}
