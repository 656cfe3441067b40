"""Sheets drawn in no sensible order keep everything that does not depend on sense.

    test_random.py WRITE-SAMPLE FONTS-FOLDER [COUNT]
"""

import os
import subprocess
import sys
import tempfile

from check_pdf import CONDITIONS, broken

# What sense the operations make is the layout's affair: the order of headings, which element
# may stand in which, alternatives, bookmarks, and whether a link has words.
SENSE = {"headings", "kids-allowed", "lists", "tables", "header-scope", "header-cells", "captions",
         "figure-box", "reading-order", "content-in-leaves", "outline", "link-text"}


def main():
    writer, fonts = sys.argv[1:3]
    total = int(sys.argv[3]) if len(sys.argv) > 3 else 40
    kept = {name for name, _, _ in CONDITIONS} - SENSE
    print(f"1..{total}")
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "random.pdf")
        for seed in range(total):
            done = subprocess.run([writer, fonts, f"random-{seed}", path], capture_output=True)
            found = broken(path) if done.returncode == 0 else {"not written": [done.stderr]}
            wrong = {name: what for name, what in found.items()
                     if name in kept or name == "not written"}
            print(f"{'not ok' if wrong else 'ok'} {seed + 1} - seed {seed}")
            if wrong:
                print(f"# {wrong}")


if __name__ == "__main__":
    main()
