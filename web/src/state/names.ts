// Names that things got in this window: what was meant by one is meant by the other, also when it is
// undone.
const pairs: [string, string][] = [];

export function note_name(from: string, to: string): void {
  if (from !== to) pairs.push([from, to]);
}

/** The same of a task: "task:a" and "task:b". */
const in_table = (id: string, name: string) => id.slice(0, id.lastIndexOf(":") + 1) + name;

/** Another name of a thing that is there; null: none. */
export function other_name(id: string, is_there: (id: string) => boolean): string | null {
  const name = id.slice(id.lastIndexOf(":") + 1);
  for (const [from, to] of [...pairs].reverse()) {
    const other = from === name ? to : to === name ? from : null;
    if (other !== null && is_there(in_table(id, other))) return in_table(id, other);
  }
  return null;
}
