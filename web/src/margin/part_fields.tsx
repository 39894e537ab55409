// The fields of a value with parts, each made from its type in the schema.
import { useEffect, useId, useRef } from "preact/hooks";
import type { ComponentChildren } from "preact";
import { called, range_says } from "./facts";
import { type Fields, figures, LeafField } from "./leaf_field";
import { ids_for } from "./offered";
import { is_imperial, is_locked, ToldAt } from "./typed_fact";
import {
  type Draft, fresh, is_leaf, is_list, is_plain, item_of, type Named, type Path, tuple_of, type Type, with_at,
} from "./values";

const begins = (path: Path, by: Path) => by.every((one, i) => path[i] === one);
const says = (type: Type): string => (type.name === undefined ? (type.called ?? "") : called(type as never));

/** Beneath the row in which it is typed. */
function ToldOf({ told, path, name }: { told: Fields["told"]; path: Path; name: string }) {
  const id = useId();
  return told === null || !begins(told.at, path) ? null : <ToldAt id={id} told={told.is} name={name} />;
}

/** Fields that stand side by side: a share of the mix, a spot with its level. */
function columns_of(type: Type): Type[] | null {
  if (is_plain(type)) return [type];
  const tuple = tuple_of(type);
  if (tuple !== null) return tuple;
  const fields = (type.fields ?? []) as Type[];
  return type.type === "record" && fields.length === 2 && fields.every(is_plain) ? fields : null;
}
/** Names need the room more than figures do. */
function widths_of(columns: readonly Type[], end: string): string {
  const has_names = columns.length > 2 && columns.some(({ type }) => !figures.has(type));
  const width = ({ type }: Type) => (figures.has(type) ? (has_names ? "56px" : "minmax(48px, 84px)") : type === "yes_no" ? "72px" : "minmax(56px, 1fr)");
  return `${columns.map(width).join(" ")} ${end}`;
}

function part_of(draft: Draft, i: number, column: Type): [Draft, string | number] {
  if (Array.isArray(draft)) return [draft[i] ?? fresh(column), i];
  const name = column.name ?? "";
  return ["fields" in draft ? (draft.fields[name] ?? fresh(column)) : { text: "" }, name];
}

function Row({ columns, end, ...of }: Fields & { columns: Type[]; end: ComponentChildren }) {
  const { draft, path, name, set, told } = of;
  const grid = widths_of(columns, end === null ? "" : "44px");
  return (
    <li class="part-row" style={{ gridTemplateColumns: grid }}>
      {columns.map((column, i) => {
        if (is_leaf(draft)) return <LeafField key={i} type={column} draft={draft} path={path} name={name} set={set} told={told} />;
        const [part, at] = part_of(draft, i, column);
        return is_leaf(part) ? <LeafField key={i} type={column} draft={part} path={[...path, at]} name={`${name}, ${says(column)}`} set={(next) => set(with_at(draft, [at], next))} told={told} /> : null;
      })}
      {end}
      <ToldOf told={told} path={path} name={String(path[path.length - 1] ?? "")} />
    </li>
  );
}

function Less({ name, press }: { name: string; press: () => void }) {
  return <button type="button" class="step" aria-label={`Take ${name} away`} disabled={is_locked()} onClick={press}>−</button>;
}

/** Days of the week, and other words of which several can be so. */
function Several({ type, draft, name, set }: Fields & { draft: Draft[] }) {
  const words = item_of(type).words ?? [];
  const chosen = draft.flatMap((one) => (is_leaf(one) ? [one.text] : []));
  return (
    <p class="part-words" role="group" aria-label={name}>
      {words.map((word) => {
        const is = chosen.includes(word);
        const next = words.filter((one) => (one === word ? !is : chosen.includes(one)));
        return <button key={word} type="button" class="word-button" aria-pressed={is} disabled={is_locked()} onClick={() => set(next.map((text) => ({ text })))}>{word}</button>;
      })}
    </p>
  );
}

function Listed({ draft, ...of }: Fields & { draft: Draft[] }) {
  const { type, path, name, set, told } = of;
  const item = item_of(type);
  if (item.type === "choice") return <Several {...of} draft={draft} />;
  const columns = columns_of(item);
  const room = useRef<HTMLOListElement>(null);
  const added = useRef(false);
  useEffect(() => {
    if (!added.current) return;
    added.current = false;
    const fields = room.current?.querySelectorAll<HTMLElement>(":scope > li:last-child input, :scope > li:last-child select");
    fields?.[0]?.focus();
  }, [draft.length]);
  const most = type.high ?? Infinity;
  const less = (i: number) => <Less name={`${name} ${i + 1}`} press={() => set(draft.filter((_, j) => j !== i))} />;
  return (
    <>
      {columns !== null && columns.length > 1 && draft.length > 0 && (
        <p class="part-row part-head" aria-hidden="true" style={{ gridTemplateColumns: widths_of(columns, "44px") }}>
          {columns.map((column) => <span key={says(column)}>{says(column)}</span>)}
        </p>
      )}
      <ol class="part-rows" ref={room}>
        {draft.map((one, i) => {
          const at = { ...of, type: item, draft: one, path: [...path, i], name: `${name} ${i + 1}`, set: (next: Draft) => set(draft.map((was, j) => (i === j ? next : was))) };
          if (columns !== null) return <Row key={i} {...at} columns={columns} end={less(i)} />;
          return (
            <li key={i} class="part-group">
              <p class="part-number"><span>{i + 1}</span>{less(i)}</p>
              <Part {...at} />
            </li>
          );
        })}
      </ol>
      {draft.length < most && (
        <button
          type="button"
          class="word-button"
          disabled={is_locked()}
          onClick={() => {
            added.current = true;
            set([...draft, fresh(item)]);
          }}
        >
          {draft.length === 0 ? "Add one" : "And another"}
        </button>
      )}
      {draft.length === 0 && told !== null && begins(told.at, path) && <ToldOf told={told} path={path} name={name} />}
    </>
  );
}

/** Names of its own, each with a value: the years of a history, materials with their prices. */
function NamesOfIts({ draft, ...of }: Fields & { draft: { names: Named[] } }) {
  const { type, path, name, set, told } = of;
  const item = item_of(type);
  const is_years = (type.low ?? 0) > 0;
  const word = is_years ? "year" : "name";
  const room = useRef<HTMLOListElement>(null);
  const added = useRef(false);
  useEffect(() => {
    if (!added.current) return;
    added.current = false;
    room.current?.querySelector<HTMLElement>(":scope > li:last-child input")?.focus();
  }, [draft.names.length]);
  const put = (i: number, next: Named) => set({ names: draft.names.map((was, j) => (i === j ? next : was)) });
  return (
    <>
      <ol class="part-rows" ref={room}>
        {draft.names.map((one, i) => (
          <li key={i} class="part-group">
            <p class="part-number">
              <label>
                <span>{word}</span>
                <input type="text" class={is_years ? "number" : ""} aria-label={`${name} ${i + 1}, ${word}`} inputMode={is_years ? "numeric" : "text"} autocomplete="off" value={one.name} readOnly={is_locked()} onFocus={(event) => event.currentTarget.select()} onInput={(event) => put(i, { ...one, name: event.currentTarget.value })} />
              </label>
              <Less name={`${name} ${one.name || i + 1}`} press={() => set({ names: draft.names.filter((_, j) => j !== i) })} />
            </p>
            <Part {...of} type={item} draft={one.value} path={[...path, i]} name={`${name} ${one.name}`.trim()} set={(value) => put(i, { ...one, value })} told={told} />
          </li>
        ))}
      </ol>
      <button
        type="button"
        class="word-button"
        disabled={is_locked()}
        onClick={() => {
          added.current = true;
          const value = fresh(item);
          set({ names: [...draft.names, { name: "", value: is_list(item) ? [fresh(item_of(item))] : value }] });
        }}
      >
        {draft.names.length === 0 ? `Add a ${word}` : `And another ${word}`}
      </button>
    </>
  );
}

/** Figures side by side, or the name of a point in their place. */
function Placed({ draft, ...of }: Fields) {
  const { type, path, name, set, told } = of;
  const points = ids_for({ type: "place", tables: ["point"] });
  const named = is_leaf(draft) ? draft.text : "";
  const all = named === "" || points.includes(named) ? points : [named, ...points];
  return (
    <>
      {all.length > 0 && (
        <p class="part-line">
          <span>where</span>
          <select aria-label={`${name}, at a named point`} value={named} disabled={is_locked()} onChange={({ currentTarget: { value } }) => set(value === "" ? fresh(type) : { text: value })}>
            <option value="">a place on the page</option>
            {all.map((id) => <option key={id} value={id}>{id}</option>)}
          </select>
        </p>
      )}
      {!is_leaf(draft) && <TupleLines {...of} draft={draft} />}
      {is_leaf(draft) && <ToldOf told={told} path={path} name={name} />}
    </>
  );
}

/** Parts of a whole, each on its line. */
function Line({ type, ...of }: Fields) {
  const { draft, path, name, told } = of;
  const hint = range_says(type as never, is_imperial());
  if (!is_plain(type) || !is_leaf(draft))
    return (
      <li class="part-inner">
        {type.type !== "place" && <p class="part-line"><span>{says(type)}</span></p>}
        <Part type={type} {...of} />
      </li>
    );
  return (
    <li class="part-line">
      <span class="part-called">
        {says(type)}
        {hint !== "" && <span class="fact-range">{hint}</span>}
      </span>
      <LeafField type={type} {...of} draft={draft} name={`${name}, ${says(type)}`} />
      <ToldOf told={told} path={path} name={String(path[path.length - 1] ?? "")} />
    </li>
  );
}

function TupleLines({ draft, type, path, set, ...of }: Fields) {
  const parts = tuple_of(type) ?? [];
  if (!Array.isArray(draft)) return null;
  return <ul class="part-lines">{parts.map((part, i) => <Line key={i} {...of} type={part} draft={draft[i] ?? fresh(part)} path={[...path, i]} set={(next) => set(with_at(draft, [i], next))} />)}</ul>;
}

function RecordLines({ draft, type, path, set, ...of }: Fields & { draft: { fields: Record<string, Draft> } }) {
  const fields = (type.fields ?? []) as Type[];
  return (
    <ul class="part-lines">
      {fields.map((field) => {
        const name = field.name ?? "";
        return <Line key={name} {...of} type={field} draft={draft.fields[name] ?? fresh(field)} path={[...path, name]} set={(next) => set(with_at(draft, [name], next))} />;
      })}
    </ul>
  );
}

/** A value by its type. */
export function Part(of: Fields) {
  const { type, draft, path, name, told } = of;
  if (type.type === "place") return <Placed {...of} />;
  if (tuple_of(type) !== null) return <TupleLines {...of} />;
  if (Array.isArray(draft)) return <Listed {...of} draft={draft} />;
  if (is_leaf(draft))
    return (
      <>
        <LeafField {...of} draft={draft} />
        <ToldOf told={told} path={path} name={name} />
      </>
    );
  return "names" in draft ? <NamesOfIts {...of} draft={draft} /> : <RecordLines {...of} draft={draft} />;
}
