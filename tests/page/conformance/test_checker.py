"""Is every condition of check_pdf.py able to fail? A good file, and single faults made in it.

    test_checker.py WRITE-SAMPLE FONTS-FOLDER

The good file, as it is and written again by another library, must pass every condition. Each
copy with one fault must break the condition named beside the fault; and every condition must have
such a copy.
"""

import os
import subprocess
import sys
import tempfile

import pikepdf

from check_pdf import CONDITIONS, broken
from faults import FAULTS, RAW_FAULTS


class Report:
    """TAP on standard output."""

    def __init__(self):
        self.count = 0

    def say(self, ok, what):
        self.count += 1
        print(f"{'ok' if ok else 'not ok'} {self.count} - {what}")


def save(pdf, path, **more):
    """Writes the objects as they are; pikepdf would mend the metadata otherwise."""
    pdf.save(path, object_stream_mode=pikepdf.ObjectStreamMode.disable,
             compress_streams=False, fix_metadata_version=False, **more)


def check(report, path, condition, what):
    found = broken(path)
    report.say(condition in found, f"{condition}: {what}")
    if condition not in found:
        print(f"# broken instead: {sorted(found)}")


def main():
    writer, fonts = sys.argv[1:3]
    report = Report()
    with tempfile.TemporaryDirectory() as folder:
        good, copy = os.path.join(folder, "good.pdf"), os.path.join(folder, "copy.pdf")
        subprocess.run([writer, fonts, "rich", good], check=True, stdout=subprocess.DEVNULL)
        report.say(broken(good) == {}, f"the good file: {broken(good)}")
        with pikepdf.open(good) as pdf:
            save(pdf, copy)
        report.say(broken(copy) == {}, f"the good file written again: {broken(copy)}")

        for condition, what, change in FAULTS:
            with pikepdf.open(good) as pdf:
                change(pdf)
                save(pdf, copy, stream_decode_level=pikepdf.StreamDecodeLevel.none)
            check(report, copy, condition, what)
        with pikepdf.open(good) as pdf:
            save(pdf, copy, encryption=pikepdf.Encryption(owner="owner", user=""))
        check(report, copy, "no-encryption", "encrypted")
        with open(good, "rb") as file:
            raw = file.read()
        for condition, what, change in RAW_FAULTS:
            with open(copy, "wb") as file:
                file.write(change(raw))
            check(report, copy, condition, what)

    shown = {row[0] for row in FAULTS + RAW_FAULTS} | {"no-encryption"}
    unshown = [name for name, _, _ in CONDITIONS if name not in shown]
    report.say(unshown == [], f"conditions without a fault: {unshown}")
    print(f"1..{report.count}")


if __name__ == "__main__":
    main()
