"""Which part of the suites reaches which line of the sources, as gcov counts it, so that a mutant is shown to those alone that can notice it.
The map is made of a build of its own and lies in that build's folder; it is never committed."""
import json
import os
import re
import subprocess
from pathlib import Path

# A suite that holds a source of its own: what it reaches of that is counted in the suite's folder.
HOLDING = ("libserved_render.", "libserved_page_one.", "libserved_openings.", "libserved_printed_instructions.")
SOURCE = re.compile(r"(?:^|/)(src/\w+/\w+\.c)$")


class Counts:
    """The counts of a build that was set up with -Db_coverage=true."""

    def __init__(self, build, folders):
        self.build = Path(build).resolve()
        self.folders = folders

    def forget(self):
        for path in self.build.rglob("*.gcda"):
            path.unlink()

    def lines(self):
        """{source: {line: whether it was reached}} of what ran since the last `forget`."""
        data = [str(path) for path in self.build.rglob("*.gcda") if any(name in str(path) for name in (*(f"src/{folder}/" for folder in self.folders), *HOLDING))]
        found = {}
        if not data:
            return found
        told = subprocess.Popen(["gcov", "--json-format", "--stdout", *data], cwd=self.build, stdout=subprocess.PIPE,
                                stderr=subprocess.DEVNULL, text=True, env={**os.environ, "LC_ALL": "C"})
        for text in told.stdout:
            for file in json.loads(text)["files"] if text.startswith("{") else ():
                match = SOURCE.search(file["file"])
                if not match:
                    continue
                reached = found.setdefault(match.group(1), {})
                for line in file["lines"]:
                    reached[line["line_number"]] = reached.get(line["line_number"], False) or line["count"] > 0
        told.wait()
        return found


class Map:
    """Of each part: how long it takes and the lines it reaches."""

    def __init__(self, parts):
        self.parts = parts
        self.counted = {}
        for part in parts.values():
            for source, (reached, others) in part["lines"].items():
                self.counted.setdefault(source, set()).update(reached, others)

    @staticmethod
    def read(path):
        return Map(json.loads(Path(path).read_text(encoding="utf-8")))

    @staticmethod
    def row(seconds, lines):
        return {"seconds": seconds, "lines": {source: [sorted(n for n, is_reached in of.items() if is_reached),
                                                       sorted(n for n, is_reached in of.items() if not is_reached)]
                                              for source, of in lines.items()}}

    def parts_at(self, source, line, text):
        """The parts that reach the line (from 1) of the source's text: the suite that has the source's name, then the quickest first. A line that gcov does not count is part of the
        statement before it; in a table outside of any function it is of each part that reaches the file, and a file of tables alone is of every part."""
        if source not in self.counted:
            return sorted(self.parts, key=lambda name: self.parts[name]["seconds"])
        lines = text.split("\n")
        at = line
        while at > 0 and at not in self.counted.get(source, ()) and not lines[at - 1].startswith("}"):
            at -= 1
        is_counted = at in self.counted.get(source, ())
        found = [name for name, part in self.parts.items()
                 if source in part["lines"] and (at in part["lines"][source][0] if is_counted else part["lines"][source][0])]
        if not found and "_exit(" in text:  # what a process reaches that ends so is counted nowhere
            found = [name for name, part in self.parts.items() if source in part["lines"] and part["lines"][source][0]]
        return sorted(found, key=lambda name: (Path(source).stem not in name, self.parts[name]["seconds"]))
