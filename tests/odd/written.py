#!/usr/bin/env python3
"""What the command does outside its own memory: it reads the files that it is given, writes those that it is told to, and nothing else.

Usage: written.py COMMAND DATA

Runs command lines of every kind, right ones and odd ones, under strace(1), which lists the system calls about files, the network and processes. Of each run:
- files are made, written, renamed and removed only under a name that the line gives, or as a file beside it whose name nobody can foresee;
- nothing is opened for reading but what the line names, the program itself and its libraries, and what the system keeps for every program (/etc, /proc, /sys, locales);
- no socket is made and no other process is started; threads of its own may be.
"""
import os
import re
import subprocess
import sys
import tempfile

PART = re.compile(r"\.samelight-[0-9a-f]{16}\.part")
SYSTEM = ("/etc/", "/proc/", "/sys/", "/usr/lib/", "/lib/", "/lib64/", "/usr/share/locale/", "/usr/lib/locale/", "/dev/null", "/dev/urandom", "/usr/share/zoneinfo/")
CALL = re.compile(r"^(?:\d+ +)?(\w+)\((.*)\) += (-?\d+|\?)")
NAME = re.compile(r'"((?:[^"\\]|\\.)*)"')
CHANGES = {"rename", "renameat", "renameat2", "link", "linkat", "symlink", "symlinkat", "unlink", "unlinkat", "mkdir", "mkdirat", "rmdir", "chmod", "fchmodat",
           "chown", "fchownat", "truncate", "mknod", "mknodat", "utimensat", "creat"}
NEVER = {"socket", "connect", "bind", "sendto", "fork", "vfork", "clone", "clone3", "kill", "ptrace"}

# The line's words, and which of them are written to.
LINES = [
    ("white display.csv --report page.html", ["page.html"]),
    ("white display.csv --report page.html", ["page.html"]),  # a file that is there already
    ("white display.csv --report below/page.html", ["below/page.html"]),
    ("white display.csv --report none/page.html", []),
    ("white display.csv --report display.csv", []),
    ("white display.csv --report .", []),
    ("metamerism crt oled-rgb --people 32 --report page.html --csv", ["page.html"]),
    ("spectrum display.csv --write copy.csv", ["copy.csv"]),
    ("spectrum display.csv --shift .3 --corrected copy.csv --report page.html", ["copy.csv", "page.html"]),
    ("meter fit readings.csv --write kept.json --report page.html --resamples 20", ["kept.json", "page.html"]),
    ("meter model cie1931-2deg display.csv --write kept.json", ["kept.json"]),
    ("meter choose display.csv --correction kept.json --meter cie1964-10deg --report page.html", ["page.html"]),
    ("targets --white .31,.32 --write targets.csv --report page.html", ["targets.csv", "page.html"]),
    ("check proof.csv --report page.html", ["page.html"]),
    ("check evil.csv --report page.html", []),
    ("adjust greys.csv --report page.html", ["page.html"]),
    ("gradient --adjustment adjustment.csv --report page.html", ["page.html"]),
    ("visit hall:cinema --minutes 90 --write list.csv --report page.html", ["list.csv", "page.html"]),
    ("compare proof.csv proof.csv --months 12 --report page.html", ["page.html"]),
    ("hdr hdr.csv --report page.html", ["page.html"]),
    ("spectrum evil.xml --report page.html", []),
    ("white ../../../../etc/passwd", []),
    ("white evil.json --report page.html", []),
    ("check proof.csv --white evil.json", []),
    ("check proof.csv --correction evil.json", []),
    ("panel", []), ("observer cie1931-2deg", []), ("--help", []), ("white --nonsense", []),
]
# Entities and names that lead elsewhere.
EVIL_XML = ('<?xml version="1.0"?><!DOCTYPE a [<!ENTITY x SYSTEM "file:///etc/hostname"><!ENTITY y SYSTEM "http://localhost/"><!ENTITY % z SYSTEM "/etc/hosts"> %z;]>'
            "<IESTM2714><Header><Description>&x;&y;</Description></Header></IESTM2714>")
EVIL_JSON = '{"schema": "samelight/white/1", "file": "/etc/hostname", "panels": [{"name": "../../evil", "report": "/tmp/evil.html"}]}'


def calls_of(command, words, folder):
    log = os.path.join(folder, "calls")
    where = os.path.join(folder, "work")
    done = subprocess.run(["strace", "-f", "-qq", "-s", "4096", "-e", "trace=%file,%network,%process,%desc", "-o", log, command, *words], cwd=where, capture_output=True,
                          stdin=subprocess.DEVNULL, check=False)
    with open(log, encoding="utf-8", errors="replace") as lines:
        return done.returncode, [match.groups() for match in map(CALL.match, lines) if match]


def faults_of(calls, command, words, written, folder):
    where = os.path.join(folder, "work")
    named = {os.path.normpath(os.path.join(where, word)) for word in words}
    may_write = {os.path.normpath(os.path.join(where, name)) for name in written}
    # To say that a name can't be written, it may be tried.
    tried = named | may_write
    started = False
    for call, arguments, result in calls:
        names = [os.path.normpath(os.path.join(where, name)) for name in NAME.findall(arguments)]
        own_thread = call in ("clone", "clone3") and "CLONE_THREAD" in arguments
        if (call in NEVER and not own_thread) or (call.startswith("exec") and started):
            yield f"{call}({arguments})"
        started = started or call.startswith("exec")
        if result.startswith("-"):
            continue
        if call in CHANGES:
            for name in names:
                beside = PART.fullmatch(os.path.basename(name)) and os.path.dirname(name) in {os.path.dirname(one) for one in may_write}
                if not (name in may_write or beside or name.startswith("/proc/self/fd/")):
                    yield f"{call}({arguments})"
        if call in ("open", "openat") and names:
            name = names[-1]
            makes = re.search(r"O_(WRONLY|RDWR|CREAT|TMPFILE|TRUNC)", arguments)
            folders = {os.path.dirname(one) for one in may_write | named}
            if makes and not (name in tried or (PART.fullmatch(os.path.basename(name)) and os.path.dirname(name) in folders) or (name in folders and "O_TMPFILE" in arguments)):
                yield f"opened to write: {call}({arguments})"
            if not makes and not (name in named or name in folders or name == command or name.startswith(SYSTEM)):
                yield f"opened to read: {call}({arguments})"


def main():
    command, data = map(os.path.abspath, sys.argv[1:3])
    faults = 0
    calls_seen = 0
    with tempfile.TemporaryDirectory() as folder:
        where = os.path.join(folder, "work")
        os.makedirs(os.path.join(where, "below"))
        proof = os.path.join(data, "demo", "proof")
        for name, source in {"display.csv": f"{data}/demo/desk-display.csv", "readings.csv": f"{data}/demo/grading-monitor-readings.csv", "proof.csv": f"{proof}/client-set-proof.csv",
                             "greys.csv": f"{proof}/client-set-greys.csv", "adjustment.csv": f"{proof}/client-set-adjustment.csv", "hdr.csv": f"{proof}/client-set-hdr.csv"}.items():
            with open(source, "rb") as read, open(os.path.join(where, name), "wb") as made:
                made.write(read.read())
        for name, text in {"evil.xml": EVIL_XML, "evil.json": EVIL_JSON, "evil.csv": "patch,X,Y,Z\n=cmd|'/C calc'!A0,1,1,x\n"}.items():
            with open(os.path.join(where, name), "w", encoding="utf-8") as made:
                made.write(text)
        for line, written in LINES:
            words = line.split()
            before = set(os.listdir(where)) | {"below/" + name for name in os.listdir(os.path.join(where, "below"))}
            code, calls = calls_of(command, words, folder)
            calls_seen += len(calls)
            after = set(os.listdir(where)) | {"below/" + name for name in os.listdir(os.path.join(where, "below"))}
            found = list(faults_of(calls, command, words, written, folder))
            found += [f"left behind: {name}" for name in after - before - set(written)]
            found += [f"not written: {name}" for name in written if name not in after]
            found += [f"ended with {code}"] if code not in (0, 1, 2) or (written and code != 0) else []
            for fault in found:
                print(f"samelight {line}: {fault}")
            faults += len(found)
    print(f"{len(LINES)} lines, {calls_seen} system calls, {faults} faults")
    sys.exit(faults != 0 or calls_seen < 20 * len(LINES))


if __name__ == "__main__":
    main()
