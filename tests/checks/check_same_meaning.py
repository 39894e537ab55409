#!/usr/bin/env python3
"""What finds differences between documents finds them.

Of the example gardens every key in turn is altered a little or left out, and each time just that entry
must be told; written in other words (metres for feet, inline tables, another order, defaults spelled out)
they must be the same.
"""
import copy
import datetime
import pathlib
import sys
import tempfile
import tomllib

root = pathlib.Path(sys.argv[1]).resolve()
sys.path.insert(0, str(root / "tests" / "journeys"))
import same_meaning  # noqa: E402

KEYS = same_meaning.Keys(root / "docs" / "document.md")
problems = []
folder = pathlib.Path(tempfile.mkdtemp())


def toml(value):
    if isinstance(value, dict):
        return "{ " + ", ".join(f'"{key}" = {toml(one)}' for key, one in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(toml(one) for one in value) + "]"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return '"' + value.replace("\\", "\\\\").replace('"', '\\"') + '"'
    return value.isoformat() if isinstance(value, datetime.date) else repr(value)


def written(document, name):
    path = folder / name
    path.write_text("".join(f'"{key}" = {toml(value)}\n' for key, value in document.items()))
    return path


def told(wanted, got):
    one = wanted if isinstance(wanted, pathlib.Path) else written(wanted, "wanted.toml")
    return same_meaning.differences(one, written(got, "got.toml"), KEYS)


def expect(is_so, what):
    if not is_so:
        problems.append(what)


def other(value):
    """Another value, not far from it."""
    if isinstance(value, bool):
        return not value
    if isinstance(value, int):
        return value + 1
    if isinstance(value, float):
        return round(value + 0.001, 6)
    if isinstance(value, str):
        return f"{value} 1/8 in" if value.endswith(" ft") else f"{value}x"
    return value + datetime.timedelta(days=1)


def leaves(value, path=()):
    if isinstance(value, (dict, list)):
        for key, one in value.items() if isinstance(value, dict) else enumerate(value):
            yield from leaves(one, (*path, key))
    else:
        yield path


def at(document, path):
    for key in path:
        document = document[key]
    return document


def altered(document, path, value):
    copied = copy.deepcopy(document)
    holder = at(copied, path[:-1])
    if value is None:
        del holder[path[-1]]
    else:
        holder[path[-1]] = value
    return copied


def in_words(value):
    """As it stands, and in metres."""
    return [value, same_meaning.metres(value) if isinstance(value, str) else value]


def default_of(path):
    """What goes without the key at the end of a path."""
    (kind, more), default = KEYS.key(path[0], next(key for key in path[1:] if isinstance(key, str)))
    if path[-1] not in KEYS.of[path[0]]:
        fields = more[1] if kind == "list" else more
        default = fields[path[-1]][1] if isinstance(fields, dict) and path[-1] in fields else None
    return default


for example in sorted((root / "examples").glob("*.toml")):
    document = tomllib.loads(example.read_text())
    expect(told(example, document) == [], f"{example.name}: written inline it is another")
    shuffled = {key: list(reversed(value)) if isinstance(value, list) else value for key, value in reversed(document.items())}
    expect(told(example, shuffled) == [], f"{example.name}: in another order it is another")
    for nth, path in enumerate(leaves(document)):
        if nth % 3 != 0:  # a third of them all is plenty
            continue
        lines = told(example, altered(document, path, other(at(document, path))))
        is_name = path[-1] in ("id", "month", "crop", "material", "thing", "scheme") or path[0] in ("prices", "crop", "survey")
        expect(lines != [] if is_name else len(lines) == 1 and (path[0].split(".")[0] in lines[0]), f"{example.name}: {path} altered, told: {lines}")
        if not isinstance(path[-1], int):
            lines = told(example, altered(document, path, None))
            expect(lines != [] or default_of(path) in in_words(at(document, path)), f"{example.name}: {path} left out, told: {lines}")
    for table, entries in document.items():
        if isinstance(entries, list):
            fewer = {**document, table: entries[1:]}
            expect(len(told(example, fewer)) == 1, f"{example.name}: a {table} fewer, told: {told(example, fewer)}")
            expect(len(told(fewer, document)) == 1, f"{example.name}: a {table} more")

pairs = [
    ({"wall": [{"id": "a", "height_m": "6 ft"}]}, {"wall": [{"id": "a", "height_m": 1.8288}]}, 0),
    ({"wall": [{"id": "a", "height_m": "6 ft 6 1/2 in"}]}, {"wall": [{"id": "a", "height_m": 6.5 * 0.3048 + 0.0127}]}, 0),
    ({"wall": [{"id": "a", "height_m": "6 ft"}]}, {"wall": [{"id": "a", "height_m": 1.829}]}, 1),
    ({"wall": [{"id": "a", "mine": True, "status": "existing"}]}, {"wall": [{"id": "a"}]}, 0),
    ({"wall": [{"id": "a", "mine": False}]}, {"wall": [{"id": "a"}]}, 1),
    ({"wall": [{"id": "a", "line": [["1 ft", "2 m"], [3, 4]]}]}, {"wall": [{"id": "a", "line": [[0.3048, 2], [3.0, 4.0]]}]}, 0),
    ({"wall": [{"id": "a", "line": [[1, 2], [3, 4]]}]}, {"wall": [{"id": "a", "line": [[3, 4], [1, 2]]}]}, 1),
    ({"tree": [{"id": "a", "stem_m": "girth 3 ft"}]}, {"tree": [{"id": "a", "stem_m": "girth 0.9144 m"}]}, 0),
    ({"tree": [{"id": "a", "stem_m": "girth 0.9144 m"}]}, {"tree": [{"id": "a", "stem_m": 0.9144}]}, 1),
    ({"climate.month": []}, {"climate.month": []}, 0),
    ({"climate": {"month": [{"month": 4, "tmax_c": "50 F"}]}}, {"climate": {"month": [{"month": 4, "tmax_c": 10}]}}, 0),
    ({"climate": {"month": [{"month": 4, "tmax_c": "50 F"}]}}, {"climate": {"month": [{"month": 4, "tmax_c": 10.1}]}}, 1),
    ({"climate": {"station": "auto"}}, {}, 0),
    ({"tank": [{"id": "a", "fed_by": "b"}]}, {"tank": [{"id": "a", "fed_by": ["b"]}]}, 0),
    ({"tank": [{"id": "a", "fed_by": ["b", "c"]}]}, {"tank": [{"id": "a", "fed_by": ["c", "b"]}]}, 0),
    ({"tank": [{"id": "a", "fed_by": "b"}]}, {"tank": [{"id": "a", "fed_by": "c"}]}, 1),
    ({"bed": [{"id": "a", "boards": {"height": 0.2, "courses": 1}}]}, {"bed": [{"id": "a", "boards": {"height": "200 mm"}}]}, 0),
    ({"bed": [{"id": "a", "history": {"2025": ["legume"]}}]}, {"bed": [{"id": "a", "history": {"2025": "legume"}}]}, 0),
    ({"bed": [{"id": "a", "mix": [{"share": 0.6}, {"share": 0.4}]}]}, {"bed": [{"id": "a", "mix": [{"share": 0.4}, {"share": 0.6}]}]}, 1),
    ({"want": [{"crop": "pea", "priority": 3}]}, {"want": [{"crop": "pea"}]}, 0),
    ({"want": [{"crop": "pea"}, {"crop": "pea"}]}, {"want": [{"crop": "pea"}]}, 1),
    ({"boundary": {"sides_m": [3, 4, 3, 4], "diagonal_m": 5}}, {"boundary": {"outline": [[0, 0], [3, 0], [3, 4.0004], [0, 4]]}}, 0),
    ({"boundary": {"sides_m": [3, 4, 3, 4], "diagonal_m": 5}}, {"boundary": {"outline": [[0, 0], [3, 0], [3, 4.002], [0, 4]]}}, 1),
    ({"ground": {"over": "40 ft"}}, {"ground": {"over": 12.192}}, 0),
    ({"task": [{"id": "a", "start": datetime.date(2027, 1, 9)}]}, {"task": [{"id": "a", "start": datetime.date(2027, 1, 10)}]}, 1),
    ({"wall": [{"id": "a", "height_m": 2}], "change": [{"thing": "a", "height_m": 2.0, "mine": True}]}, {"wall": [{"id": "a", "height_m": 2}], "change": [{"thing": "a", "mine": True}]}, 0),
    ({"change": [{"thing": "a", "height_m": 2, "scheme": "x"}]}, {"change": [{"thing": "a", "height_m": 2}]}, 2),
    ({"area": [{"id": "a", "sheet": {"size": ["4 ft", 1]}}]}, {"area": [{"id": "a", "sheet": {"size": [1.2192, 1], "overlap_m": 0.15}}]}, 0),
]
for wanted, got, count in pairs:
    for one, two in ((wanted, got), (got, wanted)):
        lines = told(one, two)
        expect(len(lines) == count, f"{one} and {two}: {lines}")

print("\n".join(problems) or "every difference is found, and nothing else")
sys.exit(1 if problems else 0)
