// The page's address says which garden and scheme it shows, so that going back and opening again
// come to the same place: #garden/scheme/thing. ?example=NAME opens an example.
import { effect } from "@preact/signals";
import { garden, look_into, open_garden, scheme, selected, show_scheme, compared, state } from "../state";

function parts(): string[] {
  return location.hash.slice(1).split("/").filter(Boolean).map(decodeURIComponent);
}

function follow(): void {
  const [id = null, shown = "proposed", thing = null] = parts();
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
    const words = id === null ? [] : [id, scheme.value, ...(selected.value === null ? [] : [selected.value])];
    const hash = words.map(encodeURIComponent).join("/");
    if (hash !== location.hash.slice(1)) {
      if (id !== before) history.pushState(null, "", `#${hash}`);
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
