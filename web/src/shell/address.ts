// The page's address says which garden and scheme it shows, so that going back and opening again
// come to the same place: #garden/scheme/thing; #.begin asks where a new one lies. ?example=NAME opens an example.
import { effect } from "@preact/signals";
import { beginning, garden, look_into, open_garden, scheme, selected, show_scheme, compared, state } from "../state";

function parts(): string[] {
  return location.hash.slice(1).split("/").filter(Boolean).map(decodeURIComponent);
}

const begin_word = ".begin"; // no garden’s id: those have letters, figures and hyphens

function follow(): void {
  const [word = null, shown = "proposed", thing = null] = parts();
  beginning.value = word === begin_word;
  const id = word === begin_word ? null : word;
  if (id !== garden.peek()) open_garden(id, shown);
  else if (shown !== scheme.peek()) show_scheme(shown, compared.peek());
  if (id !== null) selected.value = thing;
}

export function keep_address(): void {
  const example = new URLSearchParams(location.search).get("example");
  if (example !== null) {
    history.replaceState(null, "", location.pathname + location.hash);
    if (location.hash === "") void look_into(example);
  }
  follow();
  addEventListener("hashchange", follow);
  let before = garden.peek();
  effect(() => {
    const id = garden.value;
    const words = id === null ? (beginning.value ? [begin_word] : []) : [id, scheme.value, ...(selected.value === null ? [] : [selected.value])];
    const hash = words.map(encodeURIComponent).join("/");
    if (hash !== location.hash.slice(1)) {
      const was_begun = before === null && location.hash.slice(1) === begin_word;
      if (id !== before || beginning.value || was_begun) history.pushState(null, "", `#${hash}`);
      else history.replaceState(null, "", hash === "" ? location.pathname : `#${hash}`);
    }
    before = id;
  });
  addEventListener("popstate", follow);
  effect(() => {
    const title = state.value?.title;
    document.title = title === undefined ? "Spadework" : `${title}: Spadework`;
  });
}
