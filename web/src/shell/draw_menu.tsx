// The word that begins to draw, and what can be drawn, in growers' words.
import { useEffect, useRef } from "preact/hooks";
import { link } from "../state";
import { type Addable, addables, begin_adding, begin_drawing, draw_menu, type Kind, known_groups } from "../tools";
import { KindSymbol } from "./kind_symbol";
import { Menu } from "./menu";

const to_sheet = () => document.querySelector<HTMLElement>('[data-region="sheet"]')?.focus({ preventScroll: true });

function KindWord({ kind }: { kind: Kind }) {
  return (
    <button
      type="button"
      class="draw-kind"
      onClick={() => {
        begin_drawing(kind);
        to_sheet();
      }}
    >
      <KindSymbol of={kind.called !== undefined && kind.table === "wall" ? kind.called : kind.table} />
      {kind.says}
    </button>
  );
}

function AddWord({ what }: { what: Addable }) {
  return (
    <button type="button" class="draw-kind" onClick={() => begin_adding(what)}>
      <KindSymbol of={what.table} />
      {what.says}
    </button>
  );
}

function Kinds() {
  const host = useRef<HTMLDivElement>(null);
  useEffect(() => host.current?.querySelector<HTMLElement>("button")?.focus({ preventScroll: true }), []);
  return (
    <div class="draw-kinds" ref={host}>
      {known_groups.value.map(([name, kinds]) => (
        <section key={name}>
          <h2>{name}</h2>
          {kinds.map((kind) => <KindWord key={kind.says} kind={kind} />)}
        </section>
      ))}
      <section class="draw-apart">
        <h2>Not on the sheet</h2>
        {addables.map((what) => <AddWord key={what.says} what={what} />)}
      </section>
    </div>
  );
}

export function DrawMenu({ at }: { at: "left" | "right" | "foot" }) {
  return (
    <Menu word="Draw" at={at} class="draw-menu" open={draw_menu} disabled={link.value === "read_only"}>
      {() => <Kinds />}
    </Menu>
  );
}
