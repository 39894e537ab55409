// What is done with a way of doing it: made and named, compared, made the proposal, dropped.
import { useId, useState } from "preact/hooks";
import { scheme_says } from "../sheet";
import { act, compared, link, saying, scheme, show_scheme, state } from "../state";

const is_own = (name: string) => name !== "found" && name !== "proposed";
const can = () => link.value === "here";

function NewWay({ close }: { close: () => void }) {
  const [name, set_name] = useState("");
  const [told, set_told] = useState("");
  const id = useId();
  async function send(event: Event): Promise<void> {
    event.preventDefault();
    if (name.trim() === "") return set_told("It wants a name, such as hedge low.");
    const { told: no, made } = await act.make_scheme(name.trim());
    if (no !== null) return set_told(`${no.message} ${no.hint}`);
    const [way] = made;
    close();
    if (way === undefined) return;
    show_scheme(way);
    saying.value = `${way} is begun: it is the proposal until something is altered in it.`;
  }
  return (
    <form class="version-name new-way" onSubmit={(event) => void send(event)}>
      <label for={id}>
        Another way, called
        <input id={id} type="text" maxLength={40} autocomplete="off" value={name} aria-invalid={told !== ""} onInput={(event) => { set_name(event.currentTarget.value); set_told(""); }} />
      </label>
      <button type="submit" class="word-button" disabled={!can()}>Begin it</button>
      {told !== "" && <p class="told" role="alert">{told}</p>}
    </form>
  );
}

/** The shown way becomes the proposal, or goes; undo has it back. */
function OwnWords({ name, close }: { name: string; close: () => void }) {
  async function end(how: "merge" | "drop"): Promise<void> {
    close();
    show_scheme("proposed");
    const { told } = await (how === "merge" ? act.merge_scheme(name) : act.drop_scheme(name));
    if (told === null) saying.value = how === "merge" ? `${name} is the proposal now. Undo takes it back.` : `${name} is dropped. Undo brings it back.`;
  }
  return (
    <>
      <h2>{name}</h2>
      <button type="button" class="menu-row" disabled={!can()} onClick={() => void end("merge")}>Make {name} the proposal</button>
      <button type="button" class="menu-row" disabled={!can()} onClick={() => void end("drop")}>Drop {name}</button>
    </>
  );
}

export function SchemeWords({ close }: { close: () => void }) {
  const shown = scheme.value;
  const others = (state.value?.schemes ?? []).filter((name) => name !== shown);
  return (
    <>
      <h2>Compare {scheme_says(shown).toLowerCase()} with</h2>
      {others.map((name) => (
        <button
          key={name}
          type="button"
          class="menu-row"
          aria-pressed={compared.value === name}
          onClick={() => {
            close();
            if (compared.peek() === name) return show_scheme(shown);
            show_scheme(shown, name);
            saying.value = `${scheme_says(shown)}, and beside it ${scheme_says(name).toLowerCase()}.`;
          }}
        >
          {scheme_says(name)}{compared.value === name && ", beside it now"}
        </button>
      ))}
      {is_own(shown) && <OwnWords name={shown} close={close} />}
      <NewWay close={close} />
    </>
  );
}
