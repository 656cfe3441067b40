#!/usr/bin/env python3
"""Manual pages and shell completion out of the program's own tables: `manual.py PROGRAM DATA KIND OUTPUT`.

KIND is `program` (section 1), `messages` (section 7), `completion` (bash) or a kind of file that `check --format` knows (section 5). Nothing is said here that the
program does not say itself, so that pages, completion and program cannot differ."""
import datetime
import os
import re
import subprocess
import sys
from pathlib import Path

PROGRAM, DATA, KIND, OUTPUT = sys.argv[1:5]


def run(*words):
    return subprocess.run([PROGRAM, *words], capture_output=True, text=True, check=True).stdout


def formats():
    """The kinds of file that `check --format` knows; asked for none, it names them all."""
    said = subprocess.run([PROGRAM, "check", "--format", "?"], capture_output=True, text=True).stderr
    return re.findall(r"[\w-]+", said.split("these are:")[1].split(" [")[0])


def roff(text):
    """Text as a manual page takes it: no line begins with a dot or a quote, hyphens and backslashes are meant."""
    return "\n".join(("\\&" if line[:1] in ".'" else "") + line for line in text.replace("\\", "\\e").replace("-", "\\-").split("\n"))


def day():
    """Of the sources, so that the same ones give the same page."""
    root = Path(__file__).resolve().parents[2]
    epoch = os.environ.get("SOURCE_DATE_EPOCH")
    if not epoch:
        done = subprocess.run(["git", "-C", root, "log", "-1", "--format=%ct"], capture_output=True, text=True)
        epoch = done.stdout.strip() or (root / "meson.build").stat().st_mtime
    return datetime.datetime.fromtimestamp(int(float(epoch)), datetime.timezone.utc).strftime("%Y-%m-%d")


EXAMPLES = (("baskleaf clinic", "ask for the clinic's details, once"),
            ("baskleaf start ball-python -o biscuit.yaml", "write a record to fill in after the exam"),
            ("baskleaf check biscuit.yaml", "tell what is wrong or can hardly be right in it"),
            ("baskleaf approve biscuit.yaml --by 'Dr Ines Calder'", "sign it"),
            ("baskleaf sheet biscuit.yaml -o biscuit.pdf --paper letter", "set its sheet"),
            ("baskleaf packet autumn-day.csv -o sheets --joined", "set the sheets of a shelter's day, and all in one file for the printer"))
FILES = (("~/.config/baskleaf/clinic.yaml", "the clinic's details, for its user; what XDG_CONFIG_HOME names stands for ~/.config"),
         ("/etc/baskleaf/clinic.yaml", "the same for every user of the machine, where a user has none"),
         ("~/.config/baskleaf/species-sheets, /etc/baskleaf/species-sheets", "the clinic's own species sheets, which override the shipped ones"),
         ("out", "where results go that no -o names"))


def head(name, section, about):
    return f'.TH {name.upper()} {section} "{day()}" "baskleaf" "baskleaf"\n.SH NAME\n{roff(name)} \\- {roff(about)}\n'


def commands():
    """(name, words, what it does) of every command."""
    return re.findall(r"^  (\w+) +(\S+) +(\S.*)$", run("--help"), re.M)


def options(command):
    """(short or '', long, value or '', help) of every option of a command."""
    lines = re.sub(r"\n {20,}", " ", run(command, "--help"))
    return re.findall(r"^  (?:-(\w), |    )--([\w-]+)(?: (\S+))?(?: {2,}| )(\S.*)$", lines, re.M)


def program_page():
    page = head("baskleaf", 1, "a care sheet for one reptile or amphibian after its visit")
    page += ".SH SYNOPSIS\n.B baskleaf\n.I COMMAND\n[options] [words]\n.SH DESCRIPTION\n"
    page += roff("baskleaf combines a species sheet with what was found at a visit and sets a PDF for the keeper: what was found, what to change first, and "
                 "the numbers to aim for. '-' in the place of a file reads a record from standard input. A sheet supports a licensed veterinarian and "
                 "never replaces one.") + "\n.SH COMMANDS\n"
    for name, words, about in commands():
        page += f".SS {roff(name)} {roff(words)}\n{roff(about[0].upper() + about[1:])}.\n"
        for short, long, value, text in options(name):
            both = (f"\\-{short}, " if short else "") + f"\\-\\-{roff(long)}"
            page += f".TP\n.B {both}{' ' + roff(value) if value else ''}\n{roff(text)}\n"
    page += ".SH EXIT STATUS\n" + "".join(f".TP\n{number}\n{text}\n" for number, text in (
        (0, "done"), (1, "the input is wrong; nothing was written"), (2, "wrong usage"), (3, "output or the environment failed")))
    page += ".SH EXAMPLES\n" + "".join(f".TP\n.B {roff(line)}\n{roff(text)}\n" for line, text in EXAMPLES)
    page += ".SH FILES\n" + "".join(f".TP\n.I {roff(path)}\n{roff(text)}\n" for path, text in FILES)
    page += ".SH SEE ALSO\n\\fBbaskleaf\\-messages\\fR(7),\n" + ",\n".join(f".BR baskleaf\\-{roff(kind)} (5)".replace(" (5)", "\\fR(5)") for kind in formats()).replace(".BR ", "") + "\n"
    return page


def format_page():
    lines = run("check", "--format", KIND).rstrip("\n").split("\n")
    page = head(f"baskleaf-{KIND}", 5, lines[0].split(". ")[0])
    page += ".SH DESCRIPTION\n" + roff(lines[0]) + "\nThe file is YAML; JSON is YAML too. Quantities carry their unit. Unknown keys are errors.\n.SH KEYS\n"
    depth = 0
    for line in lines[1:]:
        indent = (len(line) - len(line.lstrip())) // 2
        name, _, about = line.strip().partition(": ")
        while depth < indent - 1:
            page, depth = page + ".RS\n", depth + 1
        while depth > max(indent - 1, 0):
            page, depth = page + ".RE\n", depth - 1
        page += f".TP\n.B {roff(name)}\n{roff(about)}\n"
    page += ".RE\n" * depth
    return page + ".SH SEE ALSO\n\\fBbaskleaf\\fR(1); \\fIbaskleaf check FILE\\fR tells every fault of a file with its place.\n"


def messages_page():
    """Every message by its number, from the register that the program prints."""
    page = head("baskleaf-messages", 7, "every message of baskleaf, what it means and what to do")
    page += (".SH DESCRIPTION\n" + roff("A fault or remark ends with its number, such as [B214]. The number is the message's for ever; its words may change. "
             "'baskleaf check --message B214' prints one of these rows.") + "\n")
    for block in run("check", "--message", "all").rstrip("\n").split("\n\n"):
        title, *lines = block.split("\n")
        page += f".SH {roff(title.upper())}\n"
        for said, to_do in zip(lines[::2], lines[1::2], strict=True):
            name, _, means = said.partition(": ")
            page += f".TP\n.B {roff(name)}\n{roff(means[0].upper() + means[1:])}\n{roff(to_do.strip())}\n"
    return page + ".SH SEE ALSO\n\\fBbaskleaf\\fR(1)\n"


def completion():
    rows = {name: options(name) for name, _, _ in commands()}
    words = {"paper": "a4 letter", "units": "metric us", "language": " ".join(sorted(p.name for p in (Path(DATA) / "templates/wording").iterdir())),
             "format": " ".join(formats()), "schema": " ".join(formats())}
    text = "# bash completion for baskleaf\n_baskleaf()\n{\n    local word=$2 before=$3 command=${COMP_WORDS[1]} i\n    COMPREPLY=()\n"
    # bash takes --paper=l for three words; behind -- stand files alone
    text += ("    if [ \"$before\" = = ]; then\n        before=${COMP_WORDS[COMP_CWORD - 2]}\n    elif [ \"$word\" = = ]; then\n        word=\n    fi\n"
             "    for ((i = 2; i < COMP_CWORD; i++)); do\n        if [ \"${COMP_WORDS[i]}\" = -- ]; then\n"
             "            mapfile -t COMPREPLY < <(compgen -f -- \"$word\")\n            return\n        fi\n    done\n")
    text += "    if [ \"$COMP_CWORD\" = 1 ]; then\n        mapfile -t COMPREPLY < <(compgen -W '" + " ".join(rows) + "' -- \"$word\")\n        return\n    fi\n    case $before in\n"
    for name, choices in words.items():
        text += f"    --{name}) mapfile -t COMPREPLY < <(compgen -W '{choices}' -- \"$word\"); return ;;\n"
    with_value = sorted({f"--{long}" for found in rows.values() for _, long, value, _ in found if value and long not in words} | {"-o"})
    text += "    " + "|".join(with_value) + ") mapfile -t COMPREPLY < <(compgen -f -- \"$word\"); return ;;\n    esac\n    case $word in\n    -*)\n        case $command in\n"
    for name, found in rows.items():
        text += f"        {name}) mapfile -t COMPREPLY < <(compgen -W '{' '.join('--' + long for _, long, _, _ in found)}' -- \"$word\") ;;\n"
    text += ("        esac\n        return ;;\n    esac\n    case $command in\n    start|species)\n"
             "        mapfile -t COMPREPLY < <(compgen -W \"$(baskleaf species 2>/dev/null | cut -d' ' -f1)\" -- \"$word\") ;;\n"
             "    *) mapfile -t COMPREPLY < <(compgen -f -- \"$word\") ;;\n    esac\n}\ncomplete -o filenames -F _baskleaf baskleaf\n")
    return text


Path(OUTPUT).write_text({"program": program_page, "messages": messages_page, "completion": completion}.get(KIND, format_page)())
