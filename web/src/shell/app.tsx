// The page: the shelf, or a garden with header, sheet, margin and band.
import "./shell.css";
import "./shelf.css";
import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { Sheet, ThingList } from "../sheet";
import { beginning, garden, growing, selected, state, when } from "../state";
import { page_key, show_whole } from "../tools";
import { keep_address } from "./address";
import { BeginPage } from "./begin";
import { Header, ProblemLine, Rail } from "./header";
import { ShelfPage } from "./shelf";
import { Slip } from "./slip";
import { Margin, YearBand } from "./parts";

type Width = "small" | "middle" | "wide";
const width_now = (): Width => (innerWidth < 900 ? "small" : innerWidth < 1280 ? "middle" : "wide");
const width = signal<Width>(width_now());
addEventListener("resize", () => (width.value = width_now()));
keep_address();

function show_light(): void {
  selected.value = null;
  when.value = growing();
  show_whole();
}

function GardenPage() {
  const is_small = width.value === "small";
  return (
    <div class={`page ${is_small ? "is-small" : ""}`} aria-busy={state.value === null}>
      <Header width={width.value} />
      <ProblemLine />
      <main class="page-sheet">
        <ThingList />
        <Sheet />
      </main>
      {is_small ? (
        <Slip>
          <Margin />
        </Slip>
      ) : (
        <aside class="page-margin">
          <Margin />
        </aside>
      )}
      <div class="page-band">
        <YearBand />
      </div>
      {is_small && <Rail show_light={show_light} />}
    </div>
  );
}

export function App() {
  useEffect(() => {
    document.addEventListener("keydown", page_key);
    return () => document.removeEventListener("keydown", page_key);
  }, []);
  const is_on_shelf = garden.value === null;
  useEffect(() => void document.documentElement.classList.toggle("on-shelf", is_on_shelf), [is_on_shelf]);
  if (garden.value === null && beginning.value) return <BeginPage />;
  return garden.value === null ? <ShelfPage /> : <GardenPage key={garden.value} />;
}
