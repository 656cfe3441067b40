"""Debian's own print server on loopback for a test: its port, its configuration and its spool are its own, and it is ended by its own id."""
import os
import pwd
import shutil
import socket
import subprocess
import tempfile
import time
from pathlib import Path

PROGRAM = next((p for p in (shutil.which("cupsd"), "/usr/sbin/cupsd") if p and os.path.exists(p)), None)

FILES = """ServerRoot {0}/root
RequestRoot {0}/spool
TempDir {0}/spool/tmp
CacheDir {0}/cache
StateDir {0}/state
AccessLog {0}/access
ErrorLog {0}/error
PageLog {0}/page
FileDevice Yes
Printcap
SystemGroup {1}
"""
SERVER = """Listen 127.0.0.1:{0}
Browsing No
WebInterface No
DefaultAuthType None
PreserveJobFiles Yes
<Location />
  Order allow,deny
  Allow from 127.0.0.1
</Location>
<Policy default>
  JobPrivateAccess all
  JobPrivateValues none
  <Limit All>
    Order deny,allow
  </Limit>
</Policy>
"""
# A printer that holds {paper} unless told otherwise and, when {duplex} says so, turns the page
# (PostScript Printer Description format, version 4.3; *cupsFilter as cups.org describes it).
DESCRIPTION = """*PPD-Adobe: "4.3"
*FormatVersion: "4.3"
*FileVersion: "1.0"
*LanguageVersion: English
*LanguageEncoding: ISOLatin1
*PCFileName: "TRAY.PPD"
*Manufacturer: "Invented"
*Product: "(Tray)"
*ModelName: "Tray"
*ShortNickName: "Tray"
*NickName: "Tray"
*PSVersion: "(3010.000) 0"
*LanguageLevel: "3"
*ColorDevice: True
*DefaultColorSpace: RGB
*cupsFilter: "application/pdf 0 -"
*OpenUI *PageSize/Media Size: PickOne
*OrderDependency: 10 AnySetup *PageSize
*DefaultPageSize: {paper}
*PageSize Letter/Letter: ""
*PageSize A4/A4: ""
*PageSize A5/A5: ""
*CloseUI: *PageSize
*OpenUI *PageRegion: PickOne
*OrderDependency: 10 AnySetup *PageRegion
*DefaultPageRegion: {paper}
*PageRegion Letter/Letter: ""
*PageRegion A4/A4: ""
*PageRegion A5/A5: ""
*CloseUI: *PageRegion
*DefaultImageableArea: {paper}
*ImageableArea Letter/Letter: "18 18 594 774"
*ImageableArea A4/A4: "18 18 577 824"
*ImageableArea A5/A5: "18 18 402 577"
*DefaultPaperDimension: {paper}
*PaperDimension Letter/Letter: "612 792"
*PaperDimension A4/A4: "595 842"
*PaperDimension A5/A5: "420 595"
"""
DUPLEX = """*OpenUI *Duplex/2-Sided Printing: PickOne
*OrderDependency: 20 AnySetup *Duplex
*DefaultDuplex: None
*Duplex None/Off: ""
*Duplex DuplexNoTumble/Long-Edge: ""
*Duplex DuplexTumble/Short-Edge: ""
*CloseUI: *Duplex
"""


class Printer:
    """A queue; a stopped one keeps its jobs, which is what the tests read."""

    def __init__(self, name, paper, duplex=False, accepting=True, default=False, stopped=True):
        self.name, self.paper, self.duplex, self.accepting, self.default, self.stopped = name, paper, duplex, accepting, default, stopped

    def lines(self, number):
        kind = "DefaultPrinter" if self.default else "Printer"
        return (f"<{kind} {self.name}>\nPrinterId {number}\nInfo {self.name}\nDeviceURI file:///dev/null\nState {'Stopped' if self.stopped else 'Idle'}\n"
                f"Accepting {'Yes' if self.accepting else 'No'}\nShared No\nJobSheets none none\n</{kind}>\n")


class Cupsd:
    def __init__(self, printers):
        self.own = tempfile.TemporaryDirectory(ignore_cleanup_errors=True)
        self.folder = Path(self.own.name)
        self.folder.chmod(0o755)
        for name in ("root/ppd", "spool/tmp", "cache", "state"):
            (self.folder / name).mkdir(parents=True)
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self.port = free.getsockname()[1]
        group = "root" if os.geteuid() == 0 else "lp"
        more = "" if os.geteuid() == 0 else f"User {pwd.getpwuid(os.geteuid()).pw_name}\n"
        (self.folder / "root/cups-files.conf").write_text(FILES.format(self.folder, group) + more)
        (self.folder / "root/cupsd.conf").write_text(SERVER.format(self.port))
        (self.folder / "root/printers.conf").write_text("".join(p.lines(i + 1) for i, p in enumerate(printers)))
        for printer in printers:
            if printer.paper:
                text = DESCRIPTION.format(paper=printer.paper) + (DUPLEX if printer.duplex else "")
                (self.folder / "root/ppd" / f"{printer.name}.ppd").write_text(text)
        with (self.folder / "said").open("w") as said:
            self.start(said)
        self.wait()

    def start(self, said):
        self.process = subprocess.Popen([PROGRAM, "-f", "-c", self.folder / "root/cupsd.conf", "-s", self.folder / "root/cups-files.conf"],
                                        stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=said)

    def wait(self):
        for _ in range(200):
            if self.process.poll() is not None:
                break
            try:
                socket.create_connection(("127.0.0.1", self.port), 1).close()
                return
            except OSError:
                time.sleep(0.1)
        said = (self.folder / "said").read_text()[-500:]
        self.end()
        raise RuntimeError(f"cupsd did not start: {said}")

    def job_bytes(self, number):
        return (self.folder / "spool" / f"d{number:05}-001").read_bytes()

    def jobs(self):
        return sorted(int(p.name[1:6]) for p in (self.folder / "spool").glob("d*-001"))

    def end(self):
        if self.process.poll() is None:
            self.process.terminate()
            try:
                self.process.wait(20)
            except subprocess.TimeoutExpired:
                self.process.kill()
                self.process.wait()
        self.own.cleanup()
