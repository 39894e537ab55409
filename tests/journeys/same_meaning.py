#!/usr/bin/env python3
"""Whether two garden documents mean the same, and where they do not.

  same_meaning.py WANTED.toml GOT.toml [document.md]

It shares nothing with Spadework's reader: Python's own reads the TOML, and what each key takes and what
goes without it is read from the page that names every key (docs/document.md). Lengths are compared in
metres, temperatures in Celsius; entries with ids by their ids, changes by what they change, all others as
a bag of entries. A key that says what goes without it is as good as left out; a list of one as its only
one; a boundary by tape as the outline that the tapes make. Order and remarks mean nothing.
Out: a line for each difference, and exit status 1 when there is one.
"""
import datetime
import fractions
import math
import pathlib
import re
import sys
import tomllib

PAGE = pathlib.Path(__file__).resolve().parents[2] / "docs" / "document.md"
CLOSE = 1e-6  # metres, degrees, Celsius: what writing a figure in another unit leaves
OUTLINE_M = 1e-3  # a plot by tape against an outline
METRES = {"m": 1.0, "cm": 0.01, "mm": 0.001, "km": 1000.0, "ft": 0.3048, "'": 0.3048, "in": 0.0254, '"': 0.0254, "yd": 0.9144}
BAGS = {"guessed", "from", "over", "after", "fed_by", "days", "weeks_away"}  # lists whose order means nothing


# --- What each key takes, from the page ---


def parts_of(text, mark):
    """Split where no bracket or quote is open."""
    parts, depth, quoted, begun = [], 0, False, 0
    for i, c in enumerate(text):
        if c == '"':
            quoted = not quoted
        elif not quoted and c in "{[(":
            depth += 1
        elif not quoted and c in "}])":
            depth -= 1
        elif not quoted and depth == 0 and c == mark:
            parts.append(text[begun:i])
            begun = i + 1
    return [*parts, text[begun:]]


def read_default(text):
    text = text.strip().strip("`")
    return None if text == "" else tomllib.loads(f"it = {text}")["it"]


def read_type(text):
    """A type as (kind, more): more are the fields of a record, the items of a list."""
    text = text.strip()
    if text.startswith("{"):
        fields = {}
        for part in parts_of(text[1 : text.rindex("}")], ";"):
            name, takes = re.match(r"\s*★?`([^`]+)`\s*(.*)", part.strip()).groups()
            default = re.search(r"\(([^()]+)\)$", takes)
            fields[name] = (read_type(takes[: default.start()] if default else takes), read_default(default[1]) if default else None)
        return ("record", fields)
    for words, kind in ((r"one or a list: ", "bag"), (r"list(?: of \d+)?: ", "list"), (r"by (?:names|years): ", "map")):
        if found := re.match(words, text):
            return (kind, read_type(text[found.end() :]))
    plain = text.strip("`")
    if plain.startswith("["):
        lengths = {"[x, y, level]": "length", "[point, from, length]": "tie", "[bearing, height]": "angle"}
        return ("list", (lengths[plain], None))
    starts = {"length": "length", "degrees": "angle", "bearing": "angle", "°C": "celsius", "width": "stem", "place": "place", "line": "place", "outline": "place", "two lengths": "place"}
    for word, kind in starts.items():
        if re.match(re.escape(word) + r"(?:$|,| )", plain):
            return (kind, None)
    return ("plain", None)


class Keys:
    """The keys of every table: {table: {key: (type, default)}}."""

    def __init__(self, page):
        self.of = {}
        common, table, takes_common = {}, None, set()
        for line in page.read_text().splitlines():
            if head := re.match(r"### `(.*)`$", line):
                table = re.sub(r"[\[\]]", "", head[1]).split('"')[0].rstrip(".")
                self.of[table] = {}
            elif line == "## Common keys":
                table = ""
                self.of[table] = common
            elif "Takes the [common keys]" in line:
                takes_common.add(table)
            elif table is not None and (row := re.match(r"\| (?:★ )?(`[^`]+`|\*any name\*) \|", line)):
                _, name, takes, default, _ = [cell.strip() for cell in re.split(r"(?<!\\)\|", line)][:5]
                name = name.replace("★", "").strip().strip("`").strip("*")
                self.of[table][name] = (read_type(takes), read_default(default))
        for name in takes_common:
            self.of[name] = {**common, **self.of[name]}
        del self.of[""]

    def key(self, table, name):
        known = self.of.get(table, {})
        return known.get(name) or known.get("any name") or (("plain", None), None)


# --- Values as they are meant ---


def number(text):
    text = text.strip()
    if mixed := re.fullmatch(r"(\d+)[ -](\d+/\d+)", text):
        return int(mixed[1]) + float(fractions.Fraction(mixed[2]))
    return float(fractions.Fraction(text)) if re.fullmatch(r"\d+/\d+", text) else float(text)


def metres(text):
    """ "6 ft 6 in" in metres; None: it is no length."""
    sign, rest = (-1, text.strip()[1:]) if text.strip().startswith("-") else (1, text.strip())
    one = r"(\d+[ -]\d+/\d+|\d+/\d+|\d*\.?\d+)\s*(km|cm|mm|m|ft|in|yd|'|\")"
    if not re.fullmatch(rf"\s*(?:{one}\s*)+", rest):
        return None
    return sign * sum(number(figure) * METRES[unit] for figure, unit in re.findall(one, rest))


def celsius(text):
    found = re.fullmatch(r"\s*(-?[\d.]+)\s*(?:°|deg)?\s*([CF])\s*", text)
    if found is None:
        return None
    return float(found[1]) if found[2] == "C" else (float(found[1]) - 32) / 1.8


def degrees(text):
    found = re.fullmatch(r"\s*(-?[\d.]+)\s*(?:°|deg)\s*", text)
    return None if found is None else float(found[1])


def figure(text, kind):
    read = {"length": metres, "place": metres, "tie": metres, "angle": degrees, "celsius": celsius}.get(kind)
    is_ = None if read is None else read(text)
    return text if is_ is None else is_


def stem(text):
    found = re.fullmatch(r"girth (.*)", text)
    is_ = metres(found[1] if found else text)
    return text if is_ is None else ("girth", is_) if found else is_


def meant(value, type_, name=""):
    kind, more = type_
    if kind == "bag" or (name in BAGS and isinstance(value, list)):
        items = value if isinstance(value, list) else [value]
        return ("bag", sorted((meant(item, more if kind in ("bag", "list") else ("plain", None)) for item in items), key=repr))
    if isinstance(value, bool):
        return value
    if isinstance(value, (int, float)):
        return float(value)
    if isinstance(value, str):
        return stem(value) if kind == "stem" else figure(value, kind)
    if isinstance(value, list):
        return [meant(item, more if kind == "list" else type_) for item in value]
    if isinstance(value, dict):
        out = {}
        for key, one in value.items():
            of, default = more.get(key, (("plain", None), None)) if kind == "record" else (more if kind == "map" else ("plain", None), None)
            read = meant(one, of, key)
            if default is None or not same(read, meant(default, of, key)):
                out[key] = read
        return out
    return value  # a date


def same(a, b):
    if isinstance(a, bool) or isinstance(b, bool):
        return a is b
    if isinstance(a, float) and isinstance(b, float):
        return math.isclose(a, b, rel_tol=1e-9, abs_tol=CLOSE)
    if isinstance(a, (list, tuple)) and isinstance(b, (list, tuple)):
        return len(a) == len(b) and all(same(one, other) for one, other in zip(a, b))
    if isinstance(a, dict) and isinstance(b, dict):
        return a.keys() == b.keys() and all(same(a[key], b[key]) for key in a)
    return type(a) is type(b) and a == b


# --- Documents as entries ---


def taped(sides, diagonal):
    """The corners that four sides and a diagonal make: the first at nought, the second along x."""
    a, b, c, d = sides
    x3 = (a * a + diagonal * diagonal - b * b) / (2 * a)
    y3 = math.sqrt(diagonal * diagonal - x3 * x3)
    along = (d * d - c * c + diagonal * diagonal) / (2 * diagonal)
    off = math.sqrt(d * d - along * along)
    ux, uy = x3 / diagonal, y3 / diagonal
    return [[0.0, 0.0], [a, 0.0], [x3, y3], [along * ux - off * uy, along * uy + off * ux]]


def with_outline(boundary):
    if "sides_m" not in boundary:
        return boundary
    rest = {key: value for key, value in boundary.items() if key not in ("sides_m", "diagonal_m")}
    return {**rest, "outline": taped(boundary["sides_m"], boundary["diagonal_m"])}


def same_plot(wanted, got):
    """One by tape, the other by its corners."""
    if ("sides_m" in wanted) == ("sides_m" in got) or not all("sides_m" in one or "outline" in one for one in (wanted, got)):
        return wanted, got
    one, other = with_outline(wanted), with_outline(got)
    is_same = len(one["outline"]) == len(other["outline"]) and all(math.dist(p, q) <= OUTLINE_M for p, q in zip(one["outline"], other["outline"]))
    return (one, {**other, "outline": one["outline"]}) if is_same else (one, other)


class Document:
    def __init__(self, path, keys):
        with open(path, "rb") as file:
            raw = tomllib.load(file)
        self.entries = {}  # name: keys as meant
        self.bags = {}  # table: entries without a name
        self.table_of = {}
        things = {entry["id"]: (table, entry) for table, all_ in raw.items() if isinstance(all_, list) for entry in all_ if "id" in entry}
        for table, of in raw.items():
            if not isinstance(of, (list, dict)):
                self.entries[table] = {table: of}
            elif isinstance(of, dict):
                self.single(table, of, keys)
            else:
                for entry in of:
                    self.one_of_many(table, entry, things, keys)

    def single(self, table, of, keys):
        nested = {key: value for key, value in of.items() if isinstance(value, list) and value and isinstance(value[0], dict) and f"{table}.{key}" in keys.of}
        for key, entries in nested.items():
            for entry in entries:
                self.bags.setdefault(f"{table}.{key}", []).append(self.read(f"{table}.{key}", entry, keys))
        if table == "crop":
            for crop, figures in of.items():
                self.add(f'crop "{crop}"', "crop", self.read("crop", figures, keys))
            return
        self.add(table, table, self.read(table, {key: value for key, value in of.items() if key not in nested}, keys))

    def one_of_many(self, table, entry, things, keys):
        if table == "change":
            of, base = things.get(entry.get("thing"), ("", {}))
            name = f'change of {entry.get("thing")}' + (f' in {entry["scheme"]}' if "scheme" in entry else "")
            read = self.read(of, {key: value for key, value in entry.items() if key not in ("thing", "scheme")}, keys, whole=False)
            if "scheme" not in entry:  # what is so anyway is no change
                as_found = self.read(of, base, keys, whole=False)
                read = {key: value for key, value in read.items() if key not in as_found or not same(value, as_found[key])}
            self.add(name, "change", read)
        elif "id" in entry:
            read = self.read(table, entry, keys)
            self.add(f"{table} {read.pop('id')}", table, read)
        else:
            self.bags.setdefault(table, []).append(self.read(table, entry, keys))

    def add(self, name, table, read):
        while name in self.entries:
            name += " again"
        self.entries[name], self.table_of[name] = read, table

    def read(self, table, entry, keys, whole=True):
        out = {}
        for key, value in entry.items():
            type_, default = keys.key(table, key)
            read = meant(value, type_, key)
            if whole and default is not None and same(read, meant(default, type_, key)):
                continue
            if key == "guessed" and read == ("bag", []):
                continue
            out[key] = read
        return out


def says(value):
    if isinstance(value, tuple):
        return ", ".join(says(one) for one in value[1]) if value[0] == "bag" else f"{value[0]} {says(value[1])}"
    if isinstance(value, float):
        return f"{value:.10g}"
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key} = {says(one)}" for key, one in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(says(one) for one in value) + "]"
    return value.isoformat() if isinstance(value, datetime.date) else repr(value)


NONE = "nothing"


def differences_of(name, wanted, got):
    if name == "boundary":
        wanted, got = same_plot(wanted, got)
    for key in sorted(wanted.keys() | got.keys()):
        one, other = wanted.get(key), got.get(key)
        if one is None or other is None or not same(one, other):
            yield f"{name}, {key}: wanted {NONE if one is None else says(one)}, got {NONE if other is None else says(other)}"


def likeness(one, other):
    return sum(same(one[key], other[key]) * (3 if key in ("crop", "material", "month") else 1) for key in one.keys() & other.keys())


def differences_of_bags(table, wanted, got):
    wanted, left = list(wanted), list(got)
    for one in list(wanted):
        twin = next((other for other in left if same(one, other)), None)
        if twin is not None:
            left.remove(twin)
            wanted.remove(one)
    for one in wanted:
        name = f"{table} {says(next(iter(one.values()), table))}"
        nearest = max(left, key=lambda other: likeness(one, other), default=None)
        if nearest is None or likeness(one, nearest) == 0:
            yield f"{name}: wanted {says(one)}, got {NONE}"
        else:
            left.remove(nearest)
            yield from differences_of(name, one, nearest)
    for other in left:
        yield f"{table}: wanted {NONE}, got {says(other)}"


def differences(wanted, got, keys=None):
    """A line for each difference between two documents."""
    keys = keys or Keys(PAGE)
    one, other = Document(wanted, keys), Document(got, keys)
    out = []
    for name in [*one.entries, *(name for name in other.entries if name not in one.entries)]:
        if name not in other.entries and one.entries[name] != {}:
            out.append(f"{name}: wanted {says(one.entries[name])}, got {NONE}")
        elif name not in one.entries and other.entries[name] != {}:
            out.append(f"{name}: wanted {NONE}, got {says(other.entries[name])}")
        elif name in one.entries and name in other.entries:
            out += differences_of(name, one.entries[name], other.entries[name])
    for table in [*one.bags, *(table for table in other.bags if table not in one.bags)]:
        out += differences_of_bags(table, one.bags.get(table, []), other.bags.get(table, []))
    return out


if __name__ == "__main__":
    found = differences(sys.argv[1], sys.argv[2], Keys(pathlib.Path(sys.argv[3])) if len(sys.argv) > 3 else None)
    print("\n".join(found) if found else "the same in meaning")
    sys.exit(1 if found else 0)
