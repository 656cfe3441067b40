"""What holds on the day of a visit, read a second time from the data alone by a plain reading of its rules: calls of findings and
procedures in the animal's own terms, settlements between those they name, then the strongest. No readings, no events."""
from pathlib import Path

from read_yaml import read_yaml

ROOT = Path(__file__).resolve().parents[2]


def load(name):
    return read_yaml((ROOT / "templates" / name).read_text(encoding="utf-8"))


BOOK = load("topics.yaml")
SETTLEMENTS = load("settlements.yaml")["settlements"]
CATALOGUE = load("findings.yaml")
TOPICS = {name: topic for name, topic in BOOK["topics"].items() if "stances" in topic}
TOPICS.update({f"{name}.{part}": topic for name, whole in BOOK["topics"].items() for part, topic in whole.get("parts", {}).items()})

BOX = {"heat", "heat-with", "heat-safe"}  # what is asked of the enclosure: the visits tried here tell nothing of it


class Animal:
    def __init__(self, code, sex="female", stage="adult"):
        sheet = read_yaml((ROOT / f"species-sheets/{code}.yaml").read_text(encoding="utf-8"))
        about = sheet["species"]
        self.code, self.sex, self.stage = code, sex, stage
        self.traits, self.found = set(about["traits"]), set()
        self.has = {"groups": about["group"], "habits": about["habit"], "species": code, "brumation": about["brumation"], "sexes": sex,
                    "stages": stage, "reproduction": about["reproduction"], "diets": diet_of(sheet)}

    def fits(self, row):
        return (not BOX.intersection(row) and all(self.has[key] in row[key] for key in self.has if key in row) and self.traits.issuperset(row.get("traits", []))
                and not self.traits.intersection(row.get("never-with", [])) and not ("found" in row and self.found.isdisjoint(row["found"])))

    def can_have(self, entry):
        return self.fits({key: entry[key] for key in ("groups", "sexes", "reproduction") if key in entry}) and self.traits.issuperset(entry.get("needs", [])) \
            and not self.traits.intersection(entry.get("never-with", []))


def diet_of(tree):
    if isinstance(tree, dict):
        return tree["diet"] if isinstance(tree.get("diet"), str) else next(filter(None, map(diet_of, tree.values())), None)
    return None


def own_terms(animal, call):
    """The call as this animal has it; None where it has none."""
    topic, stance = call.split(":")
    for row in TOPICS[topic].get("translate", []):
        if animal.fits(row) and {"any", stance}.intersection(row["from"]):
            return None if row["to"] == "drop" else own_terms(animal, row["to"]) if ":" in row["to"] else f"{topic}:{row['to']}"
    return call


def usual(animal, topic):
    if not animal.fits(TOPICS[topic]):
        return None
    return next((row["stance"] for row in TOPICS[topic].get("defaults", []) if animal.fits(row)), TOPICS[topic]["default"])


def days_of(row):
    """How long what a row calls for lasts, where that is written: the longer end; what ends when it is awake ends with the day."""
    if row.get("until") == "awake":
        return 1
    return int(str(row["days"]["range"]).split()[0].split("-")[-1]) if "days" in row else None


def expand(animal, calls, source, bundles=(), days=None):
    for call in calls:
        if ":" in call:
            own = own_terms(animal, call)
            if own and usual(animal, own.split(":")[0]):
                yield (*own.split(":"), source, bundles, days)
            continue
        for row in BOOK["bundles"][call]:
            if animal.fits(row):
                yield from expand(animal, row["call"], source, (*bundles, call), days_of(row) or days)


def tier_of(animal, code, severity):
    entry = CATALOGUE["findings"][code]
    return next((row["tier"] for row in entry.get("sooner", []) if animal.fits(row) and severity in row.get("severities", [severity])), entry.get("tiers", {}).get(severity))


def calls_of(animal, findings, done):
    made = list(calls_of_findings(animal, findings, done))
    yield from made
    for name, row in BOOK["calls"].items():
        if set(row["when"]) <= {"tier", "state", "stage", "warm-side", "water", "finding", "group", "bundle", "brumation", "season"} and holds(animal, row["when"], findings, done, made):
            yield from expand(animal, row["call"], next((code for code, *_ in findings if code in row["when"].get("finding", [])), None), days=days_of(row))


def after(row, done):
    return not set(row.get("never-done", [])).intersection(done) and ("done" not in row or bool(set(row["done"]).intersection(done)))


def calls_of_findings(animal, findings, done):
    found = [(code, CATALOGUE["findings"][code], severity, state) for code, severity, state in findings]
    made = [(code, CATALOGUE["procedures"][code], None, None) for code in done]
    for code, entry, severity, state in found + made:
        for row in entry.get("calls", []):
            if row.get("phase", 1) == 1 and animal.fits(row) and after(row, done) and "steps" not in row and "where" not in row and (not severity or severity in row.get("severities", [severity])) \
                    and (not state or state in row.get("states", [state])):
                yield from expand(animal, row["call"], code, days=days_of(row))


SEASON = "winter"  # the records tried here are of March, north of the equator
ONE = {"group": "groups", "habit": "habits", "species": "species", "diet": "diets", "stage": "stages", "reproduction": "reproduction", "brumation": "brumation"}


def holds(animal, when, findings, done, calls, least=0):
    """Whether the condition holds; False too for one that asks for readings or for what this reading does not know."""
    def has(codes, levels):
        return any(code in codes and severity in levels and state in when.get("state", [state]) for code, severity, state in findings)
    every = ["mild", "moderate", "severe"]
    for key, wanted in when.items():
        if key in ("warm-side", "water"):  # no readings here
            good = "unknown" in wanted
        elif key == "finding":
            good = has(wanted, when.get("severity", every))
        elif key in ("and-finding", "and-finding-too"):
            good = any(code in wanted and severity in when.get("and-severity", every) for code, severity, _ in findings)
        elif key == "tier":
            good = any(tier_of(animal, code, severity) in wanted and state in when.get("state", [state]) for code, severity, state in findings)
        elif key in ("severity", "and-severity", "state"):
            good = True
        elif key in ("done", "never-done"):
            good = bool(set(done).intersection(wanted)) == (key == "done")
        elif key == "not-finding":
            good = not any(code in wanted and severity in every for code, severity, _ in findings)
        elif key == "bundle":
            good = any(set(bundles).intersection(wanted) for *_, bundles, _ in calls)
        elif key in ("calls", "and-calls"):
            good = any(f"{topic}:{stance}" in wanted and (days is None or days >= least) for topic, stance, _, _, days in calls)
        elif key in ("trait", "never-trait"):
            good = bool(animal.traits.intersection(wanted)) == (key == "trait")
        elif key == "season":
            good = SEASON in wanted
        elif key == "medicine":
            good = False in wanted  # the records tried here have none
        elif key in ONE:
            good = animal.has[ONE[key]] in wanted
        else:
            good = False
        if not good:
            return False
    return True


def names(when, call, states):
    topic, stance, source, bundles, _ = call
    if source in states and states[source] not in when.get("state", [states[source]]):
        named = False
    else:
        named = source is not None and any(source in when.get(key, []) for key in ("finding", "and-finding", "and-finding-too", "done"))
        named = named or bool(set(bundles).intersection(when.get("bundle", [])))
        if not {"finding", "and-finding", "done", "bundle", "calls", "and-calls"}.intersection(when):
            named = source is not None
    return named or f"{topic}:{stance}" in when.get("calls", []) + when.get("and-calls", [])


def settle(code, findings, done=(), sex="female", stage="adult"):
    """{topic: (stance, settlements that speak of it)} of (code, severity, state) and procedures."""
    animal, result = Animal(code, sex, stage), {}
    animal.found = {finding for finding, _, _ in findings}
    calls = list(calls_of(animal, findings, done))
    states = {finding: state for finding, _, state in findings}
    standing = [name for name, row in SETTLEMENTS.items() if holds(animal, row["when"], findings, done, calls, row.get("lasting-days-least", 0))]
    for topic, about in TOPICS.items():
        default = usual(animal, topic)
        if default is None:
            continue
        mine, speak = [call for call in calls if call[0] == topic], []
        if about.get("kind") != "choice":
            called = {stance for _, stance, *_ in mine}
            for name in standing:
                outcomes = [own.split(":")[1] for own in (own_terms(animal, one) for one in SETTLEMENTS[name]["then"] if one.startswith(topic + ":"))
                            if own and own.startswith(topic + ":")]
                if outcomes:
                    outcome = next((one for one in outcomes if one in called), outcomes[-1])
                    when = SETTLEMENTS[name]["when"]
                    mine = [call for call in mine if not names(when, call, states)
                            or (call[2] is None and f"{call[0]}:{call[1]}" not in when.get("calls", []))] + [(topic, outcome, None, (), None)]
                    speak.append(name)
        else:
            mine = []
        result[topic] = (min([call[1] for call in mine] + [default], key=about["stances"].index), speak)
    return result
