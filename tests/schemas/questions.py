"""What the command is asked for its answers to be checked: together they bring out every part of every answer."""
import pathlib
import random
import subprocess


def made_files(command, data, folder):
    """Files that the questions need and the demo lacks, made in `folder`."""
    demo = data / "demo"

    def said(*arguments):
        return subprocess.run([command, *map(str, arguments)], capture_output=True, check=True, cwd=folder).stdout

    def write(name, text):
        (folder / name).write_text(text, encoding="utf-8")

    (folder / "meter.csv").write_bytes(said("observer", "cie1964-10deg"))
    rows = [line.split(",") for line in said("observer", "cie1931-2deg").decode().splitlines() if line[0] != "#"]
    shifted = [f"{float(nm) + 2:g},{x},{y},{z}" for nm, x, y, z in rows[1:]]
    write("shifted.csv", "\n".join([",".join(rows[0]), *shifted]) + "\n")
    write("deviations.csv", "wavelength_nm,x,y,z\n" + "".join(f"{nm},{.01 * ((nm // 5) % 3 - 1)},0,{.01 * ((nm // 5) % 2)}\n" for nm in range(380, 781, 5)))
    write("ages.csv", "age,people\n20,5\n40,7\n70,2\n")
    write("lines.csv", "wavelength_nm,lamp\n" + "".join(
        f"{nm},{.01 + sum(2.0 ** (-((nm - line - .6) / 1.5) ** 2) for line in (404.66, 435.83, 546.07, 578.0)):.6f}\n" for nm in range(380, 781)))
    write("clipped.csv", _clipped(said("panel", "oled-rgb").decode()))
    write("misread.csv", _scaled(demo / "grading-monitor.csv", {"red": 1.4}))
    write("wide.csv", _broad(demo / "grading-monitor.csv"))
    write("own.csv", "\n".join(line for line in said("panel", "oled-white").decode().splitlines() if not line.startswith("#")) + "\n")
    write("cinema.csv", "\n".join(line for line in said("panel", "laser-rgb").decode().splitlines() if not line.startswith("#")) + "\n")
    said("meter", "fit", demo / "client-set-readings.csv", "--panel", demo / "client-set.csv", "--display", "client's set", "--meter-instrument", "M",
         "--reference-instrument", "R", "--date", "2025-03-14", "--picture-mode", "cinema", "--window", "10", "--level", "100", "--note", "none",
         "--write", "client-set.json")
    said("meter", "fit", demo / "grading-monitor-readings.csv", "--panel", demo / "grading-monitor.csv", "--write", "grading.json")
    said("meter", "fit", demo / "client-set-readings.csv", "--method", "white-only", "--write", "white-only.json")
    said("meter", "fit", demo / "client-set-readings.csv", "--raw-channels", "--write", "raw.json")
    write("white.json", said("white", demo / "client-set.csv", "--reference", "crt@0.3127,0.3290", "--json").decode())
    said("targets", "--white", "0.3091,0.3199", "--curve", "power:2.4", "--peak", "100", "--write", "targets.csv")
    write("short.csv", "patch,time_s,X,Y,Z\n" + "".join(f"white,{60 * i},95.{i},100.{i},108.{i}\n" for i in range(5)))
    write("readings.csv", _paired(repeats=1))
    write("repeats.csv", _paired(repeats=4))
    write("odd.csv", _paired(repeats=5, odd=True))
    write("falling.csv", _paired(repeats=5, falls=.3))
    write("many.csv", _paired(repeats=3, mixtures=16, spoilt="mixture 5"))
    write("cyan.csv", "wavelength_nm,white\n" + "".join(f"{nm},{int(480 <= nm <= 520)}\n" for nm in range(380, 781, 5)))
    write("noisy.csv", _paired(repeats=3, noise=.02))
    write("table.csv", _table())
    write("hue.csv", "control,channel,level_pct,hue,half_width_deg,amount\nhue,,,120,40,8\n"
          "saturation,,,0,60,-10\nlightness,,,240,60,5\noffset,green,,,,1\npoint,blue,50,,,2\n")
    write("mild.csv", "control,channel,level_pct,hue,half_width_deg,amount\ngain,red,,,,-0.1\n")
    write("ramp.csv", _ramp())
    write("windows.csv", "patch,window_pct,x,y,Y\nwhite,,.3127,.3290,600\nwhite,,.3127,.3290,601\n")
    write("few.csv", "patch,level_pct,window_pct,x,y,Y\nwhite,,10,.3127,.3290,600\nwhite,,50,.3127,.3290,500\n"
          "grey,0,10,.3127,.3290,100\ngrey,50,10,.3127,.3290,200\n")
    write("dim.csv", "level_pct,x,y,Y\n0,0,0,0\n10,.31,.33,.5\n50,.31,.33,20\n100,.31,.32,100\n")


def _table(nodes=3):
    lines = ["r_in,g_in,b_in,r_out,g_out,b_out"]
    for r in range(nodes):
        for g in range(nodes):
            for b in range(nodes):
                signals = [v / (nodes - 1) for v in (r, g, b)]
                lines.append(",".join(f"{v:g}" for v in signals) + f",{signals[0] * .97:g},{signals[1]:g},{signals[2] * .95:g}")
    return "\n".join(lines) + "\n"


def _ramp():
    lines = ["level_pct,X,Y,Z"]
    for i in range(0, 101, 2):
        light = 100 * (i / 100) ** 2.4 * (1.15 if i > 50 else 1)
        lines.append(f"{i},{.95 * light:.6g},{light:.6g},{1.089 * light:.6g}")
    return "\n".join(lines) + "\n"


def _paired(repeats, odd=False, noise=.0005, falls=0.0, mixtures=0, spoilt=""):
    """Invented readings of a meter beside a reference. odd: the meter drifts, one reading is unlike its repeats, a luminance ten times too much.
    falls: what the display loses of its light from beginning to end; white is read at the end of each repeat, too. mixtures: how many more patches.
    spoilt: a patch that the reference reads wrongly every time."""
    draw = random.Random(7)
    lights = {"white": (95, 100, 108), "red": (41, 21, 2), "green": (36, 72, 12), "blue": (18, 7, 95), "cyan": (54, 79, 107), "magenta": (59, 28, 97),
              "yellow": (77, 93, 14), "grey": (47, 50, 54), "orange": (50, 40, 6), "black": (.05, .05, .06)}
    for i in range(mixtures):
        shares = [draw.uniform(.1, 1) for _ in range(3)]
        lights[f"mixture {i}"] = tuple(sum(s * lights[c][j] for s, c in zip(shares, ("red", "green", "blue"))) for j in range(3))
    shown = [*lights.items(), *([("white", lights["white"])] if falls else [])]
    lines, readings = ["patch,instrument,repeat,X,Y,Z"], 2 * repeats * len(shown)
    for k in range(1, repeats + 1):
        for name, xyz in shown:
            for instrument in ("reference", "meter"):
                values = [v * (1 + draw.gauss(0, noise)) for v in xyz]
                if instrument == "meter":
                    values = [.97 * values[0] + .03 * values[1], values[1] * 1.01, .95 * values[2]]
                    if odd:
                        values = [v * (1 + .02 * k * (i == 2)) for i, v in enumerate(values)]
                values = [v * (1 - falls * len(lines) / readings) for v in values]
                if name == spoilt and instrument == "reference":
                    values[0] *= 1.2
                if odd and (name, k, instrument) == ("red", 2, "reference"):
                    values[0] *= 1.2
                if odd and (name, k) == ("green", 3):
                    values = [10 * v for v in values]
                lines.append(f"{name},{instrument},{k}," + ",".join(f"{v:.6g}" for v in values))
    return "\n".join(lines) + "\n"


def _columns(text):
    rows = [line.split(",") for line in text.splitlines() if line and not line.startswith("#")]
    return rows[0], [[float(cell) for cell in row] for row in rows[1:]]


def _written(heading, rows):
    return "\n".join([",".join(heading), *(",".join(f"{v:.8g}" for v in row) for row in rows)]) + "\n"


def _clipped(text):
    heading, rows = _columns(text)
    top = .5 * max(row[1] for row in rows)
    return _written(heading, [[row[0], min(row[1], top), *row[2:]] for row in rows])


def _scaled(file, factors):
    heading, rows = _columns(file.read_text(encoding="utf-8"))
    return _written(heading, [[v * factors.get(name, 1) for name, v in zip(heading, row)] for row in rows])


def _broad(file):
    heading, rows = _columns(file.read_text(encoding="utf-8"))
    return _written(heading, rows[::5])


NUMBERS = "red=0.675,0.324,27.2 green=0.157,0.770,57.0 blue=0.143,0.035,3.72 white=0.315,0.332,88.0"


def questions(data, folder):
    """(arguments, standard input) of each question; the command runs in `folder`."""
    demo, proof, home = data / "demo", data / "demo/proof", data / "demo/household"
    spectra = data.parent / "tests/data/spectra"
    crt = ("--reference", "crt@0.3127,0.3290")
    sets = [str(demo / name) for name in ("grading-monitor.csv", "client-set.csv", "desk-display.csv", "foyer-display.csv")]
    generic = ("crt", "lcd-ccfl", "lcd-white-led", "lcd-narrow-red", "lcd-quantum-dot", "oled-rgb", "oled-white", "oled-quantum-dot", "laser-rgb")
    projector = [str(demo / f"projector-{light}.csv") for light in ("red", "green", "blue", "white", "black")]
    controls = ("--controls", proof / "client-set-controls.csv")
    cure = ("--white", "0.3091,0.3199", "--curve", "power:2.4")
    asked = [
        ("--version",), ("panel",), *(("panel", name) for name in generic), ("panel", "nothing"),
        ("observer",), ("observer", "cie2015-2deg"), ("observer", "cie2006:45:2"), ("observer", "cie1931-2deg"),
        # white
        ("white", *sets, *crt), ("white", *generic), ("white", *projector), ("white", "own.csv@0.3,0.31", "oled-white@0.31,0.33"),
        ("white", demo / "client-set.csv", *crt, "--now", demo / "client-set-now.csv"), ("white", "oled-rgb", *crt, "--now", "0.3127,0.3290,98"),
        ("white", "oled-rgb", *crt, "--now", "0.3127,0.3290"), ("white", demo / "client-set.csv", "--now", "0.45,0.35"),
        ("white", demo / "client-set.csv", *crt, "--viewer", "28", "--viewer", "64:4", "--viewer", "unknown", "--eye", "A=0.3065,0.3195"),
        ("white", "oled-rgb", *crt, "--viewer", "95", "--viewer", "30", "--eye", "A=0.355,0.34"), ("white", "oled-rgb", "--eye", "A=0.31,0.32"),
        ("white", "oled-rgb", "laser-rgb", "--viewer", "40"), ("white", "own.csv", "--observer", "cie1931-2deg"),
        ("white", "--primaries", NUMBERS), ("white", "--primaries", NUMBERS, "--type", "oled-rgb"), ("white", demo / "bar-screen.csv", *crt),
        ("white", demo / "bar-screen.csv", "--type", "lcd-white-led"),
        ("white", "--primaries", "red=0.64,0.33 green=0.30,0.60 blue=0.15,0.06 white=0.3127,0.3290"),
        ("white", "oled-rgb", "--reference", "0.9,0.05"), ("white", "oled-rgb", "--reference", "0.31,0.33"),
        ("white", "lcd-white-led", "--reference", "A"),
        ("white", "crt", "--reference", demo / "client-set.csv"), ("white", "crt", "--reference", "oled-white"),
        ("white", "crt", "--reference", "lcd-ccfl@0.45,0.48"),
        ("white", "lcd-white-led", "oled-rgb", "--reference", "cyan.csv", "--viewer", "25"),
        ("white", "clipped.csv"), ("white", "misread.csv"), ("white", "wide.csv"), ("white", demo / "tablet.csv"),
        ("white", demo / "hall-panel.csv", "--columns", "white=1,red=2,green=3,blue=4,black=5"), ("white", "cinema.csv", "--people", "1"),
        ("white", "oled-rgb", "--instrument", "bandwidth=8,shift=1,stray=0.001,noise=0.002,step=5", "--floor", "0.001"),
        ("white", "oled-rgb", "--ages", "ages.csv", "--spread", "literature", "--people", "50"),
        ("white", "oled-rgb", demo / "nothing.csv"), ("white",),
        ("white", "--nothing"),
        # metamerism
        ("metamerism", *sets[:3], "oled-rgb"), ("metamerism", "crt", "laser-rgb", "--details"),
        ("metamerism", *sets[:2], "--viewer", "25", "--viewer", "85:10"),
        ("metamerism", "crt", "oled-rgb@0.28,0.3", "lcd-ccfl", "--people", "40"), ("metamerism", *sets[:2], "--deviations", "deviations.csv"),
        ("metamerism", "crt", "oled-rgb", "nothing.csv"), ("metamerism", "crt", "lcd-ccfl", "--reference", "A", "--ages", "ages.csv"),
        # spectrum
        *(("spectrum", file) for file in sorted(spectra.glob("*.csv"))), ("spectrum", *sets), ("spectrum", sets[0], "nothing.csv"),
        ("spectrum", "lines.csv", "--lines", "mercury"), ("spectrum", "lines.csv", "--lines", "500,600"),
        ("spectrum", "lines.csv", "--lines", "435.83,546.07"),
        ("spectrum", sets[0], "--bandwidth", "5"), ("spectrum", "wide.csv", "--bandwidth", "20"), ("spectrum", sets[1], "--shift", "0.5"),
        ("spectrum", sets[1], "--shift", "0.5", "--bandwidth", "30"),
        ("spectrum", "clipped.csv"),
        # meter
        ("meter", "fit", demo / "client-set-readings.csv", "--panel", demo / "client-set.csv"),
        ("meter", "fit", demo / "grading-monitor-readings.csv"),
        ("meter", "fit", demo / "client-set-readings.csv", demo / "grading-monitor-readings.csv", "repeats.csv"),
        *(("meter", "fit", "repeats.csv", "--method", method) for method in
          ("four-colour", "three-colour", "least-squares", "weighted", "white-exact", "white-only")),
        ("meter", "fit", "readings.csv"), ("meter", "fit", "readings.csv", "--noise", "0.0005"),
        ("meter", "fit", "readings.csv", "--noise", "0.0005,0.002"),
        ("meter", "fit", "odd.csv"), ("meter", "fit", "odd.csv", "--method", "least-squares"), ("meter", "fit", "noisy.csv", "--want", "0.00001"),
        ("meter", "fit", "repeats.csv", "--raw-channels"),
        ("meter", "fit", "repeats.csv", "--method", "least-squares", "--noise", "residuals", "--reference-off", "0.002"),
        ("meter", "fit", "repeats.csv", "--method", "least-squares", "--noise", "each-patch"),
        ("meter", "fit", "repeats.csv", "nothing.csv"),
        *(("meter", "fit", file, "--method", "least-squares") for file in ("falling.csv", "many.csv")), ("meter", "fit", "nothing.csv"),
        ("meter", "model", "cie1931-2deg", demo / "client-set.csv"), ("meter", "model", "meter.csv", demo / "client-set.csv", "--reference", "D65"),
        ("meter", "model", "meter.csv", "own.csv", "--scale-on-a"), ("meter", "model", "shifted.csv", "oled-rgb", "--observer", "cie2015-2deg"),
        ("meter", "model", "shifted.csv", "oled-white", "--method", "least-squares"),
        ("meter", "model", "shifted.csv", demo / "client-set.csv", "--observer", "cie2006:45:2", "--reference", "D65"),
        ("meter", "choose", *sets[:2], "oled-rgb", "--correction", "client-set.json", "--correction", "grading.json", "--correction", "white-only.json"),
        ("meter", "choose", sets[1], "--correction", "client-set.json", "--meter", "shifted.csv"),
        ("meter", "choose", sets[1], "nothing.csv", "--correction", "raw.json", "--correction", "nothing.json"),
        ("meter", "choose", "oled-rgb", "--correction", "raw.json", "--correction", "client-set.json", "--correction", "white-only.json", "--meter", "meter.csv"),
        ("meter", "choose", sets[1], "--correction", "client-set.json", "--reference-white", "0.3127,0.3290", "--meter-white", "0.3130,0.3295"),
        ("meter", "choose", sets[1], "--correction", "client-set.json", "--correction", "grading.json", "--reference-white", "0.3127,0.3290", "--meter-white",
         "0.3190,0.3395", "--under", "client-set.json", "--readings", "5"),
        ("meter", "choose", "--table", "--meter", "shifted.csv"), ("meter", "choose", "--table", "--meter", "meter.csv", *sets[:2], "nothing.csv"),
        # checks
        ("targets",), ("targets", "--white", "white.json", "--curve", "power:2.4", "--peak", "120"),
        ("targets", demo / "client-set.csv", *crt, "--curve", "bt1886"),
        ("targets", "oled-rgb", "--reference", "crt", "--encoding", "bt2020", "--peak", "800", "--curve", "pq:4000", "--bits", "10", "--range", "limited"),
        ("targets", "--curve", "hlg", "--peak", "1000"), ("targets", "--curve", "hlg"),
        *(("check", proof / name, *cure) for name in ("client-set-proof.csv", "client-set-proof-before.csv", "client-set-smooth-proof.csv")),
        ("check", proof / "client-set-proof.csv"),
        ("check", proof / "client-set-proof.csv", *cure, "--before", proof / "client-set-proof-before.csv"),
        ("check", home / "proof.csv"), ("check", home / "proof-before.csv", "--correction", "client-set.json"),
        ("check", home / "smooth-proof.csv", "--peak", "100", "--black", "0"),
        ("check", proof / "client-set-proof.csv", "--targets", "targets.csv"), ("check", proof / "client-set-now-year.csv"),
        ("check", proof / "client-set-hdr.csv", "--curve", "pq"),
        ("check", proof / "client-set-hdr.csv", "--curve", "pq", "--encoding", "bt2020", "--peak", "1039"),
        ("adjust", proof / "client-set-greys.csv", *controls, "--white", "0.3091,0.3199"), ("adjust", proof / "client-set-greys.csv"),
        ("adjust", proof / "client-set-greys-2.csv", *controls, "--points", "5", "--moved", "red gain -3, blue gain 2"),
        ("adjust", home / "greys.csv", "--controls", home / "controls.csv"),
        ("adjust", home / "greys-2.csv", "--points", "10"), ("adjust", "dim.csv", "--points", "5,10,50,90", "--correction", "client-set.json"),
        ("adjust", proof / "client-set-greys.csv", *controls, "--white", "0.25,0.35"),
        ("gradient", "--adjustment", proof / "client-set-adjustment.csv"),
        ("gradient", "--adjustment", proof / "client-set-adjustment.csv", "--readings", proof / "client-set-smooth-proof.csv"),
        ("gradient", "--adjustment", "hue.csv", "--bits", "8"), ("gradient", "--adjustment", "mild.csv", "--bits", "8"),
        ("gradient", "--adjustment", "table.csv", "--bits", "9"),
        ("gradient", proof / "client-set-reds.csv", "--before", proof / "client-set-reds-before.csv"), ("gradient", "ramp.csv"),
        ("gradient", "ramp.csv", "--adjustment", "mild.csv", "--bits", "8"),
        ("hdr", proof / "client-set-hdr.csv", "--white", "0.3127,0.3290"),
        ("hdr", proof / "client-set-hdr.csv", "--correction", "client-set.json"), ("hdr", "windows.csv"),
        ("hdr", "few.csv"), ("hdr", proof / "client-set-proof.csv"),
        ("compare", proof / "client-set-then.csv", proof / "client-set-now-year.csv", "--months", "12"),
        ("compare", proof / "client-set-then.csv", proof / "client-set-now-year.csv"),
        ("compare", proof / "client-set-then.csv", proof / "client-set-now-year.csv", "--correction", "client-set.json", "--months", "12"),
        ("compare", proof / "client-set-then.csv", proof / "client-set-then.csv", "--correction", "client-set.json", "--months", "12"),
        ("compare", proof / "client-set-then.csv", proof / "client-set-now-year.csv", "--correction", "grading.json", "--then-correction",
         "client-set.json", "--months", "6"),
        ("compare", proof / "client-set-then.csv", proof / "client-set-now-year.csv", "--then-spectra", sets[1], "--now-spectra", sets[1], "--white", "0.31,0.32"),
        ("visit", "lounge:cinema,game", "hall", "--minutes", "120"),
        ("visit", "lounge:cinema,hdr", "--hdr", "--minutes", "400", "--instruments", "meter"), ("visit", "a", "b", "--minutes", "30"),
        ("visit", "lounge", "--minutes", "90", "--warm-up", proof / "client-set-warming-up.csv"),
        ("visit", "lounge", "--minutes", "90", "--warm-up", "short.csv"),
    ]
    every = [((*map(str, arguments), "--json"), None) for arguments in asked]
    names = "\n".join([*sets, "oled-rgb", "nothing.csv"]) + "\n"
    every.append((("white", "--panels-from", "-", *crt, "--lines-of-json"), names))
    every.append((("white", "nothing", "--lines-of-json"), None))
    every.append((("white", "oled-rgb", "--reference", "nothing", "--lines-of-json"), None))
    return every


def written(folder, root):
    """Files that the command wrote to be read again, and those that the library alone writes (tests/io/answers holds them to what it writes)."""
    return [*sorted(pathlib.Path(folder).glob("*.json")), *sorted((pathlib.Path(root) / "tests" / "data" / "populations").glob("*.json"))]
