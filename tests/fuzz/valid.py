"""Files that stay valid, out of the formats that the program prints itself (`check --format KIND`), from a seed.

A format is read line by line into nodes; a value is drawn about its example and inside its range. What only the data can say
(species, findings, foods, procedures, topics) comes from the data. What the program still refuses is taken out at the place that it
names, until it is content: so a file is as wide as its format, and each refusal is itself a check of its place."""
import datetime
import json
import random
import re
import subprocess
from dataclasses import dataclass, field
from pathlib import Path

import yaml

ROOT = Path(__file__).resolve().parents[2]
TODAY = datetime.date(2026, 3, 20)
LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
LINE = re.compile(r"^( *)([\w.-]+): (.*?)(?:\.(?: |$).*)?$")
EXAMPLE = re.compile(r" Example: (.*)$")
PLACE = re.compile(r":(\d+):(\d+): .* \[B\d{3}\]$")
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
ROUNDS = 25
# Texts of no kind, some of them awkward: accents, quotes, a long one, a colon, a percent sign and a brace.
PHRASES = ("left side", "Seen twice: once at night", "Está más pálido que en enero", 'the "old" scale', "50 % of it {all}", "très calme aujourd’hui",
           "A longer note that runs over more than one line of any column, so that it must be broken somewhere in its middle, and once more.")
NAMES = ("Fern", "Ñandú", "Zoë-Lou", "A", "O'Malley \"Scales\" & Co", "Señora Tortuga de la Cañada")
# Texts with a form of their own. A key whose value is a file of somebody's, a signature or a matter of letters is left out.
LEFT_OUT = {"signed-off", "previous", "photo", "log", "in-latin", "notes-in", "unlisted", "id"}
FORMS = {"email": ("ana@example.org",), "telephone": ("+1 555-0142",), "awake-by": ("17:30",), "age": ("8 months", "3 years"), "units": ("metric", "us")}


@dataclass
class Node:
    key: str
    kind: str
    example: str = ""
    required: bool = False
    below: list = field(default_factory=list)


def read_format(program, kind):
    """The tree of a format as `check --format` prints it."""
    text = subprocess.run([program, "check", "--format", kind], capture_output=True, text=True, check=True, cwd=ROOT).stdout
    top = Node("", "mapping")
    stack = [(0, top)]
    for line in text.splitlines()[1:]:
        indent, key, kind_text = LINE.match(line).groups()
        example = EXAMPLE.search(line)
        node = Node(key, kind_text.removesuffix(", required"), example.group(1) if example else "", kind_text.endswith(", required"))
        while stack[-1][0] >= len(indent):
            stack.pop()
        stack[-1][1].below.append(node)
        stack.append((len(indent), node))
    return top


class Data:
    """What only the data can say, as any YAML reader sees it."""

    def __init__(self, root=ROOT):
        read = lambda name: yaml.load((root / "templates" / name).read_text(encoding="utf-8"), LOADER)
        catalogue = read("findings.yaml")
        self.findings, self.procedures = catalogue["findings"], catalogue["procedures"]
        self.foods = read("foods.yaml")["foods"]
        self.topics = {name: row for name, row in read("topics.yaml")["topics"].items() if "stances" in row}
        self.actions = sorted({row["do"] for row in read("rules.yaml")["rules"].values() if isinstance(row.get("do"), str)})
        self.species = {path.stem: yaml.load(path.read_text(encoding="utf-8"), LOADER) for path in sorted((root / "species-sheets").glob("*.yaml"))}
        # a record's own kind is never the card, which lies beside a sheet
        self.kinds = sorted(path.stem for path in (root / "templates/sheets").glob("*.yaml") if path.stem != "card")
        self.languages = sorted(path.name for path in (root / "templates/wording").iterdir())

    def fits(self, row, code):
        about = self.species[code]["species"]
        traits = set(about.get("traits", []))
        return about["group"] in row.get("groups", [about["group"]]) and set(row.get("needs", [])) <= traits and not set(row.get("never-with", [])) & traits \
            and about.get("reproduction") in [*row.get("reproduction", [about.get("reproduction")]), None]


class Generator:
    def __init__(self, data, seed, species=None):
        self.data, self.rng = data, random.Random(seed)
        self.code = species or self.rng.choice(sorted(data.species))
        self.fullness = self.rng.choice((0.15, 0.35, 0.6))
        fitting = lambda rows: [name for name, row in rows.items() if data.fits(row, self.code)]
        self.findings, self.procedures = fitting(data.findings), fitting(data.procedures)
        self.done = self.rng.sample(self.procedures, min(len(self.procedures), self.rng.randint(1, 3)))
        topic = self.rng.choice(sorted(data.topics))
        food = self.rng.choice(list(data.foods))
        self.words = {"species": (self.code,), "mates": tuple(data.species), "code": tuple(self.findings), "food": (food,), "size": tuple(data.foods[food].get("sizes", ["none"])),
                      "done-today": tuple(self.done), "of": tuple(self.done), "kind": tuple(data.kinds), "language": tuple(data.languages), "name": NAMES,
                      "topic": (topic,), "stance": tuple(data.topics[topic]["stances"]), "action": tuple(data.actions), "confirmed": ("meal", "night", "humidity"), **FORMS}

    def text(self, node):
        return self.rng.choice(self.words.get(node.key) or PHRASES)

    def date(self, node):
        later = node.key in ("by", "check", "until", "first", "starts")
        days = self.rng.randint(1, 40) if later else 0 if node.key == "date" else -self.rng.randint(1, 400)
        return (TODAY + datetime.timedelta(days)).isoformat()

    def number(self, kind, example, whole=False):
        """About the example and inside the range, which counts in the first unit of the table; the example's unit stays."""
        value = float(example) * self.rng.choice((1, 1, self.rng.uniform(0.7, 1.4), self.rng.uniform(0.2, 4)))
        return str(round(value)) if whole or value >= 100 else f"{value:.3g}"

    def quantity(self, node):
        number = NUMBER.search(node.example or "1").group()
        unit = (node.example or "1").split(number, 1)[1] if node.example else ""
        if " with C or F" in node.kind and self.rng.random() < 0.3:
            return f"{float(self.number(node.kind, number)) * 1.8 + 32:.0f} F"
        return self.number(node.kind, number, "whole" in node.kind) + unit

    def band(self, node):
        low, high = ([float(n) for n in NUMBER.findall(node.example)] * 2)[:2] if "-" not in node.example else (float(n) for n in re.findall(r"\d+(?:\.\d+)?", node.example)[:2])
        factor = self.rng.uniform(0.85, 1.15)
        unit = re.sub(r"^[\d. -]+", "", node.example)
        return f"{low * factor:.3g}-{max(high, low) * factor:.3g} {unit}".strip()

    def choices(self, kind):
        return re.split(r", | or ", re.sub(r"^(one|list) of ", "", kind))

    def value(self, node):
        kind = node.kind
        if kind == "mapping, or list of mappings" or kind == "mapping":
            return self.mapping(node)
        if kind == "list of mappings":
            return [self.mapping(node) for _ in range(self.rng.randint(1, 4))]
        if kind == "mapping of names to mappings":
            return None
        if kind == "list of texts":
            return sorted({self.text(node) for _ in range(self.rng.randint(1, 3))})
        if kind.startswith("list of "):
            return sorted(set(self.rng.choices(self.choices(kind), k=2)))
        if kind.startswith("one of "):
            return self.rng.choice(self.choices(kind))
        simple = {"text": self.text, "date": self.date, "date, or month or year alone": lambda _: f"{self.rng.randint(2008, 2025)}-0{self.rng.randint(1, 9)}",
                  "yes or no": lambda _: self.rng.random() < 0.6,
                  "length x width x height": lambda _: f"{self.rng.randint(30, 250)} x {self.rng.randint(30, 100)} x {self.rng.randint(25, 120)} cm"}
        if kind in simple:
            return simple[kind](node)
        return self.band(node) if kind.startswith("from-to") else self.quantity(node)

    def mapping(self, node):
        made = {}
        for one in node.below:
            if one.key in LEFT_OUT or not (one.required or self.rng.random() < self.fullness):
                continue
            value = self.value(one)
            if value is not None and value != {}:
                made[one.key] = value
        return made

    def fit_findings(self, record):
        for finding in record.get("findings", []):
            row = self.data.findings[finding["code"]]
            finding["severity"] = self.rng.choice(row["severities"])
            finding.pop("step", None)
            if "steps" in row and self.rng.random() < 0.5:
                finding["step"] = self.rng.choice(row["steps"])
        return record

    def roster_row(self, form):
        row = {"name": self.rng.choice(NAMES), "species": self.code, **self.mapping(form)}
        row.update({"kind": self.rng.choice(self.data.kinds), "language": self.rng.choice(self.data.languages)})
        if "age" in row:
            row.pop("hatched", None)
        return self.fit_findings(row)

    def visit(self, form):
        record = self.mapping(form)
        record["visit"].update({"date": TODAY.isoformat(), "kind": self.rng.choice(self.data.kinds)})
        record.setdefault("keeper", {})["language"] = self.rng.choice(self.data.languages)
        return self.fit_findings(record)


def lines_of(value, path=(), indent=0):
    """The value as YAML with one leaf a line (JSON's texts are YAML's): (path, line)."""
    pad = " " * indent
    if isinstance(value, dict) and value:
        for key, one in value.items():
            if isinstance(one, (dict, list)) and one:
                yield (*path, key), f"{pad}{key}:"
                yield from lines_of(one, (*path, key), indent + 2)
            else:
                yield (*path, key), f"{pad}{key}: {json.dumps(one, ensure_ascii=False)}"
    elif isinstance(value, list) and value:
        for i, one in enumerate(value):
            if isinstance(one, (dict, list)):
                yield (*path, i), f"{pad}-"
                yield from lines_of(one, (*path, i), indent + 2)
            else:
                yield (*path, i), f"{pad}- {json.dumps(one, ensure_ascii=False)}"


def parent_of(tree, path):
    for step in path[:-1]:
        tree = tree[step]
    return tree


def take_out(tree, path, required):
    """Takes the value out; a mapping that cannot be without it, and what is then empty, goes with it."""
    while path:
        parent = parent_of(tree, path)
        del parent[path[-1]]
        names = tuple(step for step in path if isinstance(step, str))
        path = path[:-1]
        if parent and names not in required:
            return


def required_of(node, path=()):
    for one in node.below:
        here = (*path, one.key)
        if one.required:
            yield here
        yield from required_of(one, here)


class Refused(Exception):
    pass


def settle(tree, form, ask):
    """Takes out what the program refuses until it is content: (the text, rounds). `ask` gives (exit status, standard error)."""
    required = set(required_of(form))
    for rounds in range(ROUNDS):
        rows = list(lines_of(tree))
        text = "\n".join(line for _, line in rows) + "\n"
        status, said = ask(text)
        if status == 0:
            return text, rounds
        faults = [line for line in said.splitlines() if ": remark: " not in line]
        places = [PLACE.search(line) for line in faults]
        if status != 1 or not faults or not all(places) or not all(1 <= int(place.group(1)) <= len(rows) for place in places):
            raise Refused(f"status {status}, or a fault without a place in the file:\n{said}{text}")
        for path in sorted({rows[int(place.group(1)) - 1][0] for place in places}, key=lambda p: (len(p), [(isinstance(s, int), s) for s in p]), reverse=True):
            try:
                take_out(tree, path, required)
            except (KeyError, IndexError):
                pass  # went with another
    raise Refused(f"still refused after {ROUNDS} rounds:\n{said}{text}")
