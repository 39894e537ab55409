// Which scheme the sheet shows: as found, as proposed, another way, or two side by side.
import { scheme_says } from "../sheet";
import { compared, scheme, saying, show_scheme, state } from "../state";
import { Menu } from "./menu";
import { SchemeWords } from "./scheme_words";

function choose(name: string): void {
  show_scheme(name);
  saying.value = `${scheme_says(name)}.`;
}

/** Found stands beside what is shown, or what is proposed beside what was found. */
function compare(): void {
  if (compared.peek() !== null) return show_scheme(scheme.peek());
  const shown = scheme.peek();
  if (shown === "found") show_scheme("proposed", "found");
  else show_scheme(shown, "found");
  saying.value = "As found, and beside it the other, side by side.";
}

function SchemeWord({ name, close }: { name: string; close?: () => void }) {
  return (
    <button
      type="button"
      class="word-button scheme-word"
      aria-pressed={scheme.value === name && compared.value === null}
      onClick={() => {
        choose(name);
        close?.();
      }}
    >
      {scheme_says(name)}
    </button>
  );
}

function CompareWord({ close }: { close?: () => void }) {
  return (
    <button
      type="button"
      class="word-button scheme-word"
      aria-pressed={compared.value !== null}
      onClick={() => {
        compare();
        close?.();
      }}
    >
      Compare
    </button>
  );
}

export function Schemes({ is_small, is_middle }: { is_small: boolean; is_middle: boolean }) {
  const names = state.value?.schemes ?? ["found", "proposed"];
  const main: string[] = names.filter((name) => name === "found" || name === "proposed");
  const others = names.filter((name) => !main.includes(name));
  if (is_small) {
    const says = compared.value !== null ? "Compared" : scheme_says(scheme.value);
    return (
      <Menu word={says} at="right" class="schemes-menu" label={`${says}: choose the scheme`}>
        {(close) => (
          <div class="menu-rows">
            {names.map((name) => <SchemeWord key={name} name={name} close={close} />)}
            <CompareWord close={close} />
            <SchemeWords close={close} />
          </div>
        )}
      </Menu>
    );
  }
  const is_folded = is_middle || others.length > 3;
  return (
    <div class="schemes" role="group" aria-label="Scheme">
      {main.map((name) => <SchemeWord key={name} name={name} />)}
      {!is_folded && others.map((name) => <SchemeWord key={name} name={name} />)}
      <Menu word={is_folded && others.includes(scheme.value) ? scheme.value : "Other ways"} class="ways-menu">
        {(close) => (
          <div class="menu-rows">
            {is_folded && others.map((name) => <SchemeWord key={name} name={name} close={close} />)}
            <SchemeWords close={close} />
          </div>
        )}
      </Menu>
      <CompareWord />
    </div>
  );
}
