#!/usr/bin/env python3
"""How much memory the command takes to read large files of each kind: less than ten times a file's size, or 64 MiB where that is more, above what it takes for a small one.

Usage: memory.py COMMAND [PART]

Each kind of file is written three times: some kilobytes, some hundreds, and some megabytes, or as many as its reader takes. What ends badly at its last line is read as a whole and worked
out no further, so that readers are measured and no calculator. Also files that are one line, one cell, nothing but commas, quotes, line ends, brackets, tags. PART: only
kinds whose name or words contain it. The largest resident memory is the kernel's (getrusage(2)).
"""
import os
import sys
import tempfile

TIMES = 10
MIB = 1 << 20
# Rows of readings take hundreds of bytes however few of the file's they have; there are 100,000 at most.
LEAST = 64 * MIB


def spectra(size):
    """A table of as many columns as fit, by 1 nm."""
    columns = max(1, size // (401 * 9))
    head = "wavelength_nm" + "".join(f",light {i}" for i in range(columns)) + "\n"
    rows = (f"{nm}" + "".join(f",{0.5 + (nm * 7 + i) % 89 / 1000:.5f}" for i in range(columns)) + "\n" for nm in range(380, 781))
    return head + "".join(rows)


def short_spectra(size):
    """Whose numbers have one digit."""
    columns = max(1, size // (401 * 2))
    return "wavelength_nm" + ",a" * columns + "\n" + "".join(f"{nm}" + f",{nm % 7 + 1}" * columns + "\n" for nm in range(380, 781))


def cgats_spectra(size):
    """Likewise."""
    return ("CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_ID SPECTRAL_NM SPECTRAL_DEC\nEND_DATA_FORMAT\nBEGIN_DATA\n"
            + "".join(f"{i} {nm} {nm % 7 + 1}\n" for i in range(max(1, size // 4000)) for nm in range(380, 781)) + "END_DATA\n")


def long_spectrum(size):
    return "wavelength_nm,light\n" + "".join(f"{200 + i * .001:.3f},{.5 + i % 89 / 1000:.3f}\n" for i in range(size // 14))


def rows_of(head, row):
    def make(size):
        one = row(1)
        return head + "".join(row(i) for i in range(max(4, size // len(one)))) + "x,x,x,x,x,x,x,x,x\n"
    return make


def tm27(size):
    points = "".join(f'<SpectralData wavelength="{200 + i * .001:.3f}">{.5 + i % 89 / 1000:.3f}</SpectralData>\n' for i in range(size // 55))
    return ('<?xml version="1.0"?><IESTM2714 version="1.0"><Header><Description>x</Description></Header><SpectralDistribution>'
            '<SpectralQuantity>radiance</SpectralQuantity>' + points + "</SpectralDistribution></IESTM2714>")


def cgats(size):
    rows = "".join(f"{i} {i % 90} {i % 91} {i % 92} {i % 256} {i % 255} {i % 254}\n" for i in range(size // 24))
    return ("CGATS.17\nORIGINATOR \"x\"\nNUMBER_OF_FIELDS 7\nBEGIN_DATA_FORMAT\nSAMPLE_ID XYZ_X XYZ_Y XYZ_Z RGB_R RGB_G RGB_B\nEND_DATA_FORMAT\n"
            f"NUMBER_OF_SETS {size // 24}\nBEGIN_DATA\n" + rows + "x x x x x x x\nEND_DATA\n")


def table(size):
    return "r_in,g_in,b_in,r_out,g_out,b_out\n" + "".join(f"{i % 33}/32,0,0,{i % 31 / 31:.4f},0,0\n" for i in range(size // 22)) + "x,x,x,x,x,x\n"


def nested(opening, closing):
    return lambda size: opening * (size // 2) + closing * (size // 2)


SHORT = rows_of("patch,X,Y,Z\n", lambda i: "a,1,1,1\n")
PATCHES = rows_of("patch,X,Y,Z\n", lambda i: f"grey-{i % 101},{i % 97}.5,{i % 89}.25,{i % 83}.125\n")
CODES = rows_of("r,g,b,bits,range,x,y,Y\n", lambda i: f"{i % 256},{i % 255},{i % 254},8,full,0.31{i % 9},0.32{i % 9},{i % 97}\n")

# name, the line's words, how it is made, the largest that is written: a reader's own limit or what is enough.
KINDS = [
    ("spectra", "spectrum {}", spectra, 12 * MIB),
    ("short spectra", "spectrum {}", short_spectra, 4 * MIB),
    ("CGATS spectra", "spectrum {}", cgats_spectra, 1.7 * MIB),
    ("long spectrum", "spectrum {}", long_spectrum, 1 * MIB),
    ("TM-27", "spectrum {}", tm27, 4 * MIB),
    ("CGATS", "check {}", cgats, 4 * MIB),
    ("patches", "check {}", PATCHES, 1.3 * MIB),
    ("patches", "check {}", PATCHES, 4 * MIB),
    ("short rows", "check {}", SHORT, 4 * MIB),
    ("patches by code", "check {}", CODES, 4 * MIB),
    ("patches to adjust", "adjust {}", PATCHES, 4 * MIB),
    ("patches in HDR", "hdr {}", PATCHES, 4 * MIB),
    ("patch list", "targets --white .31,.33 --patches {}", rows_of("patch\n", lambda i: f"grey-{i % 101}\n"), 4 * MIB),
    ("paired readings", "meter fit {}",
     rows_of("patch,instrument,repeat,X,Y,Z\n", lambda i: f"white,{'meter' if i % 2 else 'reference'},{i // 2 + 1},90.{i % 97},99.{i % 89},98.{i % 83}\n"), 1.6 * MIB),
    ("adjustment", "gradient --adjustment {}", table, 12 * MIB),
    ("controls", "adjust {small} --controls {}", rows_of("control,steps,level_pct,x,y,Y\n", lambda i: f"red gain,{i % 9},80,.31{i % 9},.33{i % 9},80\n"), 1 * MIB),
    ("ages", "white crt --ages {}", rows_of("", lambda i: f"{20 + i % 60}\n"), 1 * MIB),
    ("deviations", "metamerism crt oled-rgb --deviations {}", spectra, 1 * MIB),
    ("list of panels", "white --panels-from {}", rows_of("", lambda i: "none.csv\n"), 1 * MIB),
    ("warm-up", "visit hall --minutes 90 --warm-up {}", rows_of("minutes,X,Y,Z\n", lambda i: f"{i},90.{i % 97},99.{i % 89},98.{i % 83}\n"), 1 * MIB),
    ("answer", "check {small} --white {}", lambda size: '{"schema": "samelight/white/1", "panels": [' + '{"name": "x"},' * (size // 14) + "{}]}", 1 * MIB),
    ("correction", "check {small} --correction {}", lambda size: '{"format": "x", "warnings": [' + '{"code": "x"},' * (size // 14) + "{}]}", 1 * MIB),
    ("brackets", "check {small} --correction {}", nested("[", "]"), 1 * MIB),
    ("objects", "check {small} --white {}", nested('{"a":', "}"), 1 * MIB),
    ("tags", "spectrum {}", lambda size: '<?xml version="1.0"?><IESTM2714>' + "<a>" * (size // 3), 4 * MIB),
] + [(f"one {name}", f"{words} {{}}", make, 4 * MIB) for words in ("spectrum", "check", "meter fit", "adjust", "gradient --adjustment")
     for name, make in (("line", lambda size: "1," * (size // 2)), ("cell", lambda size: "x" * size), ("quote", lambda size: '"' + "x" * size),
                        ("run of commas", lambda size: "," * size), ("run of line ends", lambda size: "\n" * size),
                        ("run of quotes", lambda size: '"' * size), ("run of zero bytes", lambda size: "\0" * size),
                        ("run of words", lambda size: "wavelength_nm " * (size // 14)))]


def resident_bytes(command, words):
    """The largest of a run that ends by itself."""
    pid = os.fork()
    if pid == 0:
        null = os.open(os.devnull, os.O_RDWR)
        for descriptor in (0, 1, 2):
            os.dup2(null, descriptor)
        os.execv(command, [command, *words])
    _, status, usage = os.wait4(pid, 0)
    code = os.waitstatus_to_exitcode(status)
    if code not in (0, 1):
        sys.exit(f"memory.py: {' '.join(words)}: ended with {code}")
    return usage.ru_maxrss * 1024


def write_apart(name, make, size):
    """In a process of its own: what this one holds at its largest, the kernel counts for those that it starts."""
    pid = os.fork()
    if pid == 0:
        with open(name, "w", encoding="utf-8") as file:
            file.write(make(size))
        os._exit(0)
    os.waitpid(pid, 0)


def main():
    command = os.path.abspath(sys.argv[1])
    part = sys.argv[2] if len(sys.argv) > 2 else ""
    faults = 0
    with tempfile.TemporaryDirectory() as folder:
        os.chdir(folder)
        with open("small.csv", "w", encoding="utf-8") as file:
            file.write("patch,X,Y,Z\nwhite,95,100,108\ngrey-50,18,19,20\n")
        print(f"{'kind':46} {'file':>10} {'memory':>10}  times")
        for name, words, make, largest in KINDS:
            if part not in name + words:
                continue
            base = None
            sizes = (1000, int(largest) - 100_000) if name.startswith("one ") else (1000, 400_000, int(largest / 3), int(largest) - 100_000)
            for size in sizes:
                write_apart("large.csv", make, size)
                line = [word.replace("{}", "large.csv").replace("{small}", "small.csv") for word in words.split()]
                memory = resident_bytes(command, line)
                base = base or memory
                written = os.path.getsize("large.csv")
                taken = max(0, memory - base)
                over = taken > max(TIMES * written, LEAST)
                faults += over
                if over or size > 1000:
                    print(f"{name + ', ' + words.split()[0]:46} {written:10} {taken:10}  {taken / written:5.1f}" + ("  TOO MUCH" if over else ""))
    print(f"{faults} faults")
    sys.exit(faults != 0)


if __name__ == "__main__":
    main()
