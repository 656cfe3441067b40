#!/usr/bin/env python3
"""A build without any of the optional libraries: their pkg-config files are hidden, Meson's summary says so, and the
example sheet is made all the same."""
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
OPTIONAL = sys.argv[1:]  # names of pkg-config files


def run(*words, **more):
    done = subprocess.run(list(map(str, words)), capture_output=True, text=True, **more)
    if done.returncode:
        sys.exit(f"{words}: {done.stdout[-3000:]}{done.stderr[-3000:]}")
    return done.stdout


with tempfile.TemporaryDirectory() as folder:
    folder = Path(folder)
    shown = folder / "pkgconfig"
    shown.mkdir()
    for place in run("pkg-config", "--variable", "pc_path", "pkg-config").strip().split(":"):
        for file in Path(place).glob("*.pc") if Path(place).is_dir() else []:
            if file.stem not in OPTIONAL:
                # others may be built on a hidden one (freetype on libpng); what they need privately is no affair of ours
                text = file.read_text(errors="surrogateescape")
                (shown / file.name).write_text("".join(line for line in text.splitlines(True) if not line.startswith("Requires.private")),
                                               errors="surrogateescape")
    copy = folder / "copy"
    shutil.copytree(ROOT, copy, ignore=shutil.ignore_patterns(".build*", ".git", "out"), symlinks=True)
    (copy / "out").mkdir()
    environment = {**os.environ, "PKG_CONFIG_LIBDIR": str(shown), "PKG_CONFIG_PATH": ""}
    summary = run("meson", "setup", ".build", "-Dc_args=-DBASKLEAF_WITHOUT_CSV -DBASKLEAF_WITHOUT_CUPS -DBASKLEAF_WITHOUT_UNISTRING", cwd=copy, env=environment)
    optional = summary[summary.index("Optional libraries"):]
    if "YES" in optional.split("\n\n")[0]:
        sys.exit(f"found in spite of hiding: {optional}")
    run("ninja", "-C", ".build", "src/cli/baskleaf", "page-fonts", cwd=copy, env=environment)
    run(".build/src/cli/baskleaf", "sheet", "templates/visits/juniper-adoption.yaml", "-o", folder / "sheet.pdf", "--today", "2026-03-20", cwd=copy)
    run("qpdf", "--check", folder / "sheet.pdf")
    visit = folder / "visit.yaml"
    for name, more, told in (("יעל", "", "2:17: no font here has 'י' (U+05D9)"), ("Zoe\u0308", "", "2:17: no font here has '\u0308' (U+0308)"),
                             ("יעל", "in-latin: [{of: יעל, write: Yael}]\n", "")):
        visit.write_text(f'visit: {{date: 2026-03-14, kind: checkout}}\npatient: {{name: "{name}", species: ball-python}}\n{more}', encoding="utf-8")
        done = subprocess.run([copy / ".build/src/cli/baskleaf", "check", visit, "--today", "2026-03-20"], capture_output=True, text=True, timeout=60, cwd=copy)
        if done.returncode != (1 if told else 0) or told not in done.stderr:
            sys.exit(f"letters that are lacking should be told: {done.returncode} {done.stderr}")
    desk = subprocess.run([copy / ".build/src/cli/baskleaf", "desk", folder], capture_output=True, text=True, timeout=60)
    if desk.returncode != 3 or "built without libmicrohttpd" not in desk.stderr:
        sys.exit(f"the desk should say that it was left out: {desk.returncode} {desk.stderr}")
print(f"built without {', '.join(OPTIONAL)}; the adoption packet is made")
