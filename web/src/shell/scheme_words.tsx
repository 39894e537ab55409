// What is done with a way of doing it: made and named, compared, made the proposal, dropped.
import { useId, useState } from "preact/hooks";
import { scheme_says } from "../sheet";
import { act, compared, link, problem, saying, scheme, show_scheme, state } from "../state";

const is_own = (name: string) => name !== "found" && name !== "proposed";
const can = () => link.value === "here";

interface Told {
  message: string;
  hint: string;
}
interface NamedProps {
  asks: string;
  word: string;
  is?: string;
  /** What was refused; null: it is done. */
  send: (name: string) => Promise<Told | null>;
}

/** A name typed, and what is done with it. */
function Named({ asks, word, is = "", send }: NamedProps) {
  const [name, set_name] = useState(is);
  const [told, set_told] = useState("");
  const id = useId();
  async function done(event: Event): Promise<void> {
    event.preventDefault();
    if (name.trim() === "") return set_told("It wants a name, such as hedge low.");
    if (/^as[ -](found|proposed)$/i.test(name.trim())) return set_told("That is what the garden itself is called. Take another name, such as hedge low.");
    const no = await send(name.trim());
    if (no !== null) problem.value = null; // it is told here
    if (no !== null) set_told(`${no.message} ${no.hint}`);
  }
  return (
    <form class="version-name new-way" onSubmit={(event) => void done(event)}>
      <label for={id}>
        {asks}
        <input id={id} type="text" maxLength={40} autocomplete="off" value={name} aria-invalid={told !== ""} aria-describedby={told !== "" ? `${id}-told` : undefined} onInput={(event) => { set_name(event.currentTarget.value); set_told(""); }} />
      </label>
      <button type="submit" class="word-button" disabled={!can()}>{word}</button>
      {told !== "" && <p id={`${id}-told`} class="told" role="alert">{told}</p>}
    </form>
  );
}

function NewWay({ close }: { close: () => void }) {
  async function send(name: string): Promise<Told | null> {
    const { told, made: [way] } = await act.make_scheme(name);
    if (told !== null) return told;
    close();
    if (way === undefined) return null;
    show_scheme(way);
    saying.value = `${way} is begun: it is the proposal until something is altered in it.`;
    return null;
  }
  return <Named asks="Another way, called" word="Begin it" send={send} />;
}

/** Another name for the shown way. */
function Rename({ name, close }: { name: string; close: () => void }) {
  async function send(called: string): Promise<Told | null> {
    if (called === name) {
      close();
      return null;
    }
    const { told, made: [way = name] } = await act.rename_scheme(name, called);
    if (told !== null) return told;
    close();
    show_scheme(way);
    saying.value = `${name} is now called ${way}.`;
    return null;
  }
  return <Named asks={`Another name for ${name}`} word="Name it so" is={name} send={send} />;
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
      <Rename key={name} name={name} close={close} />
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
