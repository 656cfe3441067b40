#!/usr/bin/env python3
"""The Debian package that src/install/package.sh makes: taken apart, its program sets the same bytes as ours; dpkg installs it into a folder of
its own and removes every file again; lintian, where it is there, finds nothing. With --root a bare root is made by debootstrap from the
mirror that this machine's own apt uses, and the package is installed in it with what it depends on, used and removed: that takes minutes and
an administrator."""
import os
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

PROGRAM = Path(sys.argv[1]).resolve()
BUILD = Path(sys.argv[2]).resolve()
IN_A_ROOT = sys.argv[3:4] == ["--root"]
ROOT = Path(__file__).resolve().parents[2]
VISIT = ROOT / "templates/visits/biscuit-ball-python.yaml"
SHEET = ("sheet", "-o", "-", "--today", "2026-03-20")
PLAIN = {"PATH": "/usr/local/sbin:/usr/sbin:/sbin:" + os.environ["PATH"], "HOME": "/nonexistent", "LC_ALL": "C.UTF-8"}


def run(*words, **more):
    return subprocess.run(words, capture_output=True, env=PLAIN, **more)


def files_below(folder):
    return sorted(str(path.relative_to(folder)) for path in folder.rglob("*") if not path.is_dir())


class Package(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.temporary = tempfile.TemporaryDirectory()
        cls.top = Path(cls.temporary.name)
        done = run(ROOT / "src/install/package.sh", cls.top / "made", BUILD)
        if done.returncode:
            raise AssertionError(done.stdout.decode() + done.stderr.decode())
        cls.package = next((cls.top / "made").glob("baskleaf_*.deb"))

    @classmethod
    def tearDownClass(cls):
        cls.temporary.cleanup()

    def test_taken_apart_it_sets_the_same_bytes(self):
        tree = self.top / "apart"
        self.assertEqual(run("dpkg-deb", "--extract", self.package, tree).returncode, 0)
        got, wanted = (run(program, *SHEET, VISIT, cwd=self.top) for program in (tree / "usr/bin/baskleaf", PROGRAM))
        self.assertEqual(got.returncode, 0, got.stderr)
        self.assertEqual(got.stdout, wanted.stdout)
        message = run(tree / "usr/bin/baskleaf", "mail", VISIT, "--drafts", "-o", "-", "--today", "2026-03-20", cwd=self.top)
        self.assertEqual(message.returncode, 0, message.stderr)
        self.assertTrue((tree / "usr/share/man/man1/baskleaf.1.gz").exists())
        sums = run("dpkg-deb", "--info", self.package, "md5sums").stdout
        self.assertEqual(run("md5sum", "--check", "--quiet", cwd=tree, input=sums).returncode, 0)
        self.assertEqual(len(sums.splitlines()), len(files_below(tree)))
        self.assertEqual([path for path in files_below(tree) if not path.startswith("usr/")], [])

    def test_it_needs_what_it_is_linked_with(self):
        needs = run("dpkg-deb", "--field", self.package, "Depends").stdout.decode()
        for library in ("libc6", "libhpdf-", "libyaml-0-2", "zlib1g"):
            self.assertIn(library, needs)

    def test_dpkg_installs_and_removes_it(self):
        """Into a folder, with a list of packages of its own; what it depends on is not looked for there."""
        root = self.top / "root"
        for folder in ("var/lib/dpkg/info", "var/lib/dpkg/updates", "var/lib/dpkg/triggers"):
            (root / folder).mkdir(parents=True)
        (root / "var/lib/dpkg/status").touch()
        dpkg = ("dpkg", "--root", root, "--force-depends", "--force-not-root", "--force-bad-path", "--log", self.top / "log")
        as_root = () if os.geteuid() == 0 else ("fakeroot",) if shutil.which("fakeroot") else None
        if as_root is None:
            self.skipTest("neither root nor fakeroot: dpkg would not unpack")
        done = run(*as_root, *dpkg, "--install", self.package)
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertTrue((root / "usr/bin/baskleaf").exists())
        self.assertEqual(run(root / "usr/bin/baskleaf", *SHEET, VISIT, cwd=self.top).returncode, 0)
        done = run(*as_root, *dpkg, "--purge", "baskleaf")
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertEqual([path for path in files_below(root) if not path.startswith("var/lib/dpkg/")], [])

    def test_lintian_finds_nothing(self):
        if not shutil.which("lintian"):
            self.skipTest("lintian is not installed: the package was not held against Debian's policy")
        done = run("lintian", "--allow-root", self.package, cwd=self.top) if os.geteuid() == 0 else run("lintian", self.package, cwd=self.top)
        self.assertEqual((done.returncode, done.stdout), (0, b""), done.stderr)


def mirror():
    """Where this machine gets its own packages."""
    sites = run("apt-get", "indextargets", "--format", "$(SITE)", "Created-By: Packages").stdout.decode().split()
    return next((site for site in sites if site.startswith(("http", "file:", "copy:"))), None)


def in_a_bare_root(self):
    """With all that it depends on, as apt finds it."""
    if os.geteuid() != 0 or not shutil.which("debootstrap") or not mirror():
        self.skipTest("debootstrap, an administrator and apt's own mirror are needed")
    root = self.top / "bare"
    release = next(line.split("=")[1].strip() for line in Path("/etc/os-release").read_text().splitlines() if line.startswith("VERSION_CODENAME="))
    done = run("debootstrap", "--variant=minbase", release, root, mirror())
    self.assertEqual(done.returncode, 0, done.stdout[-2000:])
    (root / "usr/sbin/policy-rc.d").write_text("#!/bin/sh\nexit 101\n")
    (root / "usr/sbin/policy-rc.d").chmod(0o755)
    shutil.copy(self.package, root / "tmp/baskleaf.deb")
    shutil.copy(VISIT, root / "tmp/visit.yaml")
    inside = ("chroot", root)
    # as on any machine: the program asks there where it lies
    self.assertEqual(run(*inside, "mount", "-t", "proc", "proc", "/proc").returncode, 0)
    self.addCleanup(run, *inside, "umount", "/proc")
    self.assertEqual(run(*inside, "apt-get", "update", "-qq").returncode, 0)
    done = run(*inside, "apt-get", "install", "-y", "-qq", "--no-install-recommends", "/tmp/baskleaf.deb")
    self.assertEqual(done.returncode, 0, done.stderr[-2000:])
    got, wanted = run(*inside, "baskleaf", *SHEET, "/tmp/visit.yaml"), run(PROGRAM, *SHEET, VISIT, cwd=self.top)
    self.assertEqual((got.returncode, got.stdout == wanted.stdout), (0, True), got.stderr)
    self.assertEqual(run(*inside, "dpkg", "--purge", "baskleaf").returncode, 0)
    self.assertEqual([path for path in files_below(root / "usr") if "baskleaf" in path], [])


if IN_A_ROOT:
    Package.test_in_a_bare_root = in_a_bare_root


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
