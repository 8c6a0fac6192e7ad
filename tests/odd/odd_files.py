"""Files that nobody means to give to a command, and some that are nearly right. All invented."""
import struct


def spectral(columns="wavelength_nm,red,green,blue", value="1", first=380, last=780, step=10, more=""):
    names = columns.split(",")
    rows = [",".join([str(nm)] + [value] * (len(names) - 1)) for nm in range(first, last + 1, step)]
    return (columns + "\n" + "\n".join(rows) + "\n" + more).encode()


def bands(columns="wavelength_nm,red,green,blue", scale=1.0):
    """Three bands of light, a display as it might be."""
    rows = [columns]
    for nm in range(380, 781, 5):
        rows.append(str(nm) + "".join(f",{scale * 2.0 ** (-((nm - peak) / 30.0) ** 2):.9g}"
                                      for peak in (620, 540, 450)))
    return ("\n".join(rows) + "\n").encode()


def readings(change=lambda text: text):
    primaries = {"white": (95, 100, 109), "red": (41, 21, 2), "green": (36, 72, 12), "blue": (18, 7, 95)}
    rows = ["patch,instrument,repeat,X,Y,Z"]
    for repeat in range(1, 4):
        for patch, xyz in primaries.items():
            for instrument, factor in (("reference", 1.0), ("meter", 1.02)):
                values = ",".join(f"{v * factor * (1 + 0.0005 * repeat):.5f}" for v in xyz)
                rows.append(f"{patch},{instrument},{repeat},{values}")
    return change("\n".join(rows) + "\n").encode()


MATRIX = '"reference_from_meter": [[1,0,0],[0,1,0],[0,0,1]]'
CORRECTION = '{"schema": "samelight/correction/1", %s, "observer": "cie1931-2deg", "method": "four-colour"%s}'


def correction(matrix=MATRIX, more=""):
    return (CORRECTION % (matrix, more)).encode()


def bytes_of_no_format():
    return {
        "empty": b"",
        "one-byte": b"x",
        "line-feed": b"\n",
        "line-feeds": b"\n" * 5000,
        "blanks": b" \t " * 1000,
        "zero": b"\0",
        "zeros": b"\0" * 5000,
        "binary": bytes(range(256)) * 40,
        "noise": bytes((i * 7919 + i * i * 31) % 256 for i in range(20000)),
        "picture": b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR" + bytes(range(200)),
        "mark-utf8": b"\xef\xbb\xbf",
        "mark-utf16": b"\xff\xfe",
        "utf16-odd": "wavelength_nm,red\n".encode("utf-16") + b"3",
        "utf16-lone": b"\xff\xfe" + struct.pack("<H", 0xD800) * 4,
        "utf32": "wavelength_nm,red\n380,1\n".encode("utf-32"),
        "utf8-cut": b"wavelength_nm,r\xc3",
        "utf8-long": b"wavelength_nm,\xc0\xaf\n380,1\n",
        "latin": b"wavelength_nm,r\xe9d\n380,1\n390,1\n",
        "steering": b"\x1b[31mwavelength_nm,red\n380,1\n",
        "commas": b"," * 100000,
        "quotes": b'"' * 100001,
        "quote-open": b'wavelength_nm,"red\n380,1\n390,1\n',
        "hashes": b"#" * 100000 + b"\n" * 3,
        "long-line": b"x" * 3000000,
        "long-cell": b"wavelength_nm," + b"r" * 1000000 + b"\n380,1\n390,1\n",
        "page": b"<html><body>380,1</body></html>\n" * 50,
        "carriage": b"wavelength_nm,red\r380,1\r390,1\r",
        "control-z": b"wavelength_nm,red\n380,1\n390,1\n\x1a",
    }


def spectra():
    head = "wavelength_nm,red,green,blue"
    down = spectral(first=380, last=780).decode().splitlines()
    return {
        "display": bands(),
        "faint": bands(scale=1e-300),
        "bright": bands(scale=1e300),
        "heading-alone": head.encode() + b"\n",
        "one-row": (head + "\n380,1,1,1\n").encode(),
        "two-rows": (head + "\n380,1,1,1\n390,1,1,1\n").encode(),
        "no-heading": "\n".join(down[1:]).encode(),
        "column-twice": spectral("wavelength_nm,red,red,green,blue"),
        "column-many": spectral("wavelength_nm" + ",red" * 3000),
        "column-nameless": spectral("wavelength_nm,,,"),
        "column-steering": spectral("wavelength_nm,\x1b[2J,\u202e,a\tb"),
        "all-nothing": spectral(value="0"),
        "all-same": spectral(value="7"),
        "negative": spectral(value="-1"),
        "minus-nothing": spectral(value="-0"),
        "nan": spectral(value="nan"),
        "inf": spectral(value="inf"),
        "huge": spectral(value="1e308"),
        "beyond": spectral(value="1e400"),
        "tiny": spectral(value="4e-324"),
        "digits": spectral(value="1" * 5000),
        "hex": spectral(value="0x1p3"),
        "words": spectral(value="red"),
        "empty-cells": spectral(value=""),
        "comma-marks": spectral().replace(b",", b";").replace(b"1", b"0,5"),
        "twice": (head + "\n" + "\n".join(down[1:] + down[1:])).encode(),
        "descending": (head + "\n" + "\n".join(reversed(down[1:]))).encode(),
        "same-wavelength": (head + "\n" + "380,1,1,1\n" * 30).encode(),
        "wavelength-huge": spectral(first=10**9, last=10**9 + 100),
        "wavelength-negative": spectral(first=-100, last=100),
        "wavelength-nan": (head + "\nnan,1,1,1\n390,1,1,1\n").encode(),
        "gap": (head + "\n380,1,1,1\n390,1,1,1\n780,1,1,1\n").encode(),
        "ragged": (head + "\n380,1\n390,1,1,1,1,1\n400\n").encode(),
        "rows-many": (head + "\n" + "".join(f"{380 + i / 100:.2f},1,1,1\n" for i in range(40001))).encode(),
        "across": ("name," + ",".join(str(nm) for nm in range(380, 781, 10)) + "\nred" + ",1" * 41 + "\n").encode(),
        "units": spectral("wavelength_nm [1/nm],red [furlong],green,blue"),
    }


def corrections():
    def nested(opening, closing, depth):
        return (opening * depth + closing * depth).encode()
    return {
        "kept": correction(),
        "json-null": b"null",
        "json-number": b"1e999",
        "json-text": b'"samelight/correction/1"',
        "json-array": b"[]",
        "json-object": b"{}",
        "json-cut": correction()[:60],
        "json-after": correction() + b"{}",
        "json-utf16": correction().decode().encode("utf-16"),
        "json-brackets": nested("[", "]", 1000),
        "json-brackets-many": b"[" * 3000000,
        "json-objects": nested('{"a":', "}", 500)[:-500] + b"1" + b"}" * 500,
        "json-keys": ("{" + ",".join(f'"k{i}":1' for i in range(50000)) + "}").encode(),
        "json-values": b"[" + b"0," * 1500000 + b"0]",
        "json-key-twice": correction(more=', "method": "four-colour"'),
        "json-key-steering": correction(more=', "\\u001b[31m": 1'),
        "json-lone-surrogate": correction(more=', "note": "\\ud800"'),
        "schema-number": correction().replace(b'"samelight/correction/1"', b"1"),
        "schema-other": correction().replace(b"correction/1", b"correction/2"),
        "matrix-text": correction('"reference_from_meter": "1 0 0"'),
        "matrix-short": correction('"reference_from_meter": [[1,0],[0,1]]'),
        "matrix-nothing": correction('"reference_from_meter": [[0,0,0],[0,0,0],[0,0,0]]'),
        "matrix-huge": correction('"reference_from_meter": [[1e308,0,0],[0,1e308,0],[0,0,1e308]]'),
        "matrix-beyond": correction('"reference_from_meter": [[1e400,0,0],[0,1,0],[0,0,1]]'),
        "matrix-turned": correction('"reference_from_meter": [[-1,0,0],[0,1,0],[0,0,1]]'),
        "observer-number": correction().replace(b'"cie1931-2deg"', b"31"),
        "observer-unknown": correction().replace(b"cie1931-2deg", b"nobody"),
        "method-unknown": correction().replace(b"four-colour", b"seven-colour"),
        "covariance-short": correction(more=', "covariance": {"reference_from_meter": [[1]]}'),
        "covariance-negative": correction(
            more=', "degrees_of_freedom": 1, "covariance": {"reference_from_meter": [%s]}' %
            ",".join(["[" + ",".join(["-1"] * 9) + "]"] * 9)),
        "residuals-object": correction(more=', "residuals": {}'),
        "spectra-short": correction(more=', "panel_spectra": {"wavelengths_nm": [1]}'),
        "warnings-number": correction(more=', "warnings": 3'),
        "note-long": correction(more=', "note": "%s"' % ("x" * 100000)),
    }


def readings_files():
    return {
        "read": readings(),
        "read-heading": b"patch,instrument,repeat,X,Y,Z\n",
        "read-one": b"patch,instrument,repeat,X,Y,Z\nwhite,meter,1,95,100,109\n",
        "read-meter-alone": readings(lambda t: "\n".join(r for r in t.splitlines() if "reference" not in r)),
        "read-same": readings(lambda t: t.replace("meter", "reference")),
        "read-nobody": readings(lambda t: t.replace("meter", "nobody")),
        "read-nothing": readings(lambda t: "\n".join(
            r if i == 0 else ",".join(r.split(",")[:3]) + ",0,0,0" for i, r in enumerate(t.splitlines()))),
        "read-nan": readings(lambda t: t.replace("white,meter,1,", "white,meter,1,nan,")),
        "read-huge": readings(lambda t: t.replace("white,meter,1,", "white,meter,1,1e308,1e308,")),
        "read-negative": readings(lambda t: t.replace("white,meter,1,", "white,meter,1,-")),
        "read-repeat-huge": readings(lambda t: t.replace(",1,", ",999999999999999999999,")),
        "read-repeat-negative": readings(lambda t: t.replace(",1,", ",-1,")),
        "read-twice": readings(lambda t: t + t.split("\n", 1)[1]),
        "read-column-twice": readings(lambda t: t.replace("X,Y,Z", "X,X,Z")),
        "read-column-missing": readings(lambda t: t.replace("instrument", "device")),
        "read-steering": readings(lambda t: t.replace("white", "\x1b[31mwhite")),
        "read-name-long": readings(lambda t: t.replace("blue", "b" * 100000)),
        "read-time": readings(lambda t: t.replace("repeat", "time_s").replace(",1,", ",1e308,")),
        "ages": b"age_years,people\n30,5\n40,7\n",
        "ages-negative": b"age_years,people\n-1,5\n",
        "ages-huge": b"age_years,people\n1e9,5\n",
        "ages-people": b"age_years,people\n30,1e300\n",
        "ages-half": b"age_years,people\n30,0.5\n",
        "ages-nobody": b"age_years,people\n30,0\n",
        "list-empty": b"\n\n",
        "list-zero": b"crt\n\0\n",
        "list-long": b"x" * 200000,
        "list-mixed": b"crt\nnone.csv\n\x1b[31m\n\xff\nlaser@9,9\n",
    }


def patch_readings(change=lambda text: text, gain=1.0):
    """Greys and primaries of a display of power 2.4, as it might be read."""
    rows = ["patch,r,g,b,bits,range,x,y,Y"]
    for percent in (0, 5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100):
        code = round(2.55 * percent)
        rows.append(f"grey-{percent},{code},{code},{code},8,full,.3127,.329,{gain * (.01 + 100 * (code / 255) ** 2.4):.5f}")
    for name, code, rest in (("red", "255,0,0", ".64,.33,21.3"), ("green", "0,255,0", ".3,.6,71.5"), ("blue", "0,0,255", ".15,.06,7.2")):
        rows.append(f"{name},{code},8,full,{rest}")
    return change("\n".join(rows) + "\n").encode()


def warming(step=60, white="95,100,108"):
    """A white read over time."""
    return ("patch,time_s,X,Y,Z\n" + "".join(f"white,{step * n},{white}\n" for n in range(13))).encode()


def proof_files():
    menu = ("control,steps,level_pct,x,y,Y\n,0,100,.3127,.329,100\n,0,30,.3127,.329,5.6\n"
            "red gain,5,100,.3160,.3291,101\nred offset,5,30,.3170,.3290,5.65\n")
    return {
        "patches": patch_readings(),
        "patches-later": patch_readings(gain=0.9),
        "patches-heading": b"patch,x,y,Y\n",
        "patches-one": b"patch,x,y,Y\nwhite,.3127,.329,100\n",
        "patches-dark": patch_readings(lambda t: "\n".join(r if i == 0 else r.rsplit(",", 3)[0] + ",0,0,0" for i, r in enumerate(t.splitlines()))),
        "patches-nan": patch_readings(lambda t: t.replace(".329,", "nan,")),
        "patches-huge": patch_readings(lambda t: t.replace(",.3127,.329,", ",.3127,1e-300,")),
        "patches-negative": patch_readings(lambda t: t.replace(",8,full,.3127,.329,", ",8,full,.3127,.329,-")),
        "patches-limited": patch_readings(lambda t: t.replace("full", "limited")),
        "patches-codes": patch_readings(lambda t: t.replace("255", "99999")),
        "patches-level": b"level_pct,X,Y,Z\n1e9,1,1,1\n",
        "patches-steering": patch_readings(lambda t: t.replace("red", "\x1b[31mred")),
        "patches-name-long": patch_readings(lambda t: t.replace("blue", "b" * 100000)),
        "patches-no-white": patch_readings(lambda t: "\n".join(r for r in t.splitlines() if "grey-100" not in r)),
        "patches-same": patch_readings(lambda t: "\n".join(r if i == 0 else r.rsplit(",", 3)[0] + ",.3127,.329,50" for i, r in enumerate(t.splitlines()))),
        "warming": warming(),
        "warming-at-once": warming(step=0),
        "warming-huge": warming(step=1e308),
        "warming-dark": warming(white="0,0,0"),
        "warming-tiny": warming(white="1e-300,1e-300,1e-300"),
        "menu": menu.encode(),
        "menu-heading": b"control,steps,x,y,Y\n",
        "menu-none": b"control,steps,x,y,Y\nred gain,0,.31,.33,100\n",
        "menu-steps": menu.replace(",5,", ",1e9,").encode(),
        "menu-half": menu.replace(",5,", ",.5,").encode(),
        "menu-name": menu.replace("red gain", "sharpness").encode(),
        "turned": b"control,channel,level_pct,hue,half_width_deg,amount\ngain,red,,,,2\nsaturation,,,red,60,10\n",
        "turned-heading": b"control,amount\n",
        "turned-huge": b"control,channel,amount\ngain,red,1e300\n",
        "turned-nobody": b"control,channel,amount\nsharpness,red,5\n",
        "turned-table": b"r_in,g_in,b_in,r_out,g_out,b_out\n0,0,0,0,0,0\n1,1,1,1,1,1\n",
        "answer": b'{"schema": "samelight/white/1", "panels": [{"name": "set", "advice": {"white": {"x": 0.308, "y": 0.319}}}]}',
        "answer-none": b'{"schema": "samelight/white/1", "panels": []}',
        "answer-zero": b'{"schema": "samelight/white/1", "panels": [{"advice": {"white": {"x": 0, "y": 0}}}]}',
        "answer-far": b'{"schema": "samelight/white/1", "panels": [{"advice": {"white": {"x": 9e99, "y": 1e-99}}}]}',
        "answer-deep": b"[" * 100000,
    }


def exchanged():
    """Spectra in the forms of standards, TM-27 XML and CGATS.17 text, right and wrong."""
    def tm27(rows, head="", root='<IESTM2714 xmlns="iestm2714" version="1.0">', text="red"):
        return (f'<?xml version="1.0"?>\n{head}{root}<Header><Description>{text}</Description></Header>'
                f"<SpectralDistribution>{rows}</SpectralDistribution></IESTM2714>\n").encode()

    def row(nm, value):
        return f'<SpectralData wavelength="{nm}">{value}</SpectralData>\n'

    def cgats(sets, fields="SAMPLE_NAME SPECTRAL_NM SPECTRAL_DEC", end="END_DATA\n", head=""):
        return f"CGATS.17\n{head}BEGIN_DATA_FORMAT\n{fields}\nEND_DATA_FORMAT\nBEGIN_DATA\n{sets}{end}".encode()

    rows = "".join(row(nm, 1 + nm % 7) for nm in range(380, 781, 10))
    sets = "".join(f"{name} {nm} {2.0 ** (-((nm - peak) / 30.0) ** 2):.9g}\n"
                   for name, peak in (("red", 620), ("green", 540), ("blue", 450)) for nm in range(380, 781, 5))
    return {
        "tm27": tm27(rows),
        "tm27-entities": tm27(rows, '<!DOCTYPE l [<!ENTITY a "ha"><!ENTITY b "&a;&a;">]>\n', text="&b;"),
        "tm27-deep": tm27("<a>" * 100000),
        "tm27-many": tm27(rows + "<a b=''/>" * 250000),
        "tm27-twice": tm27(rows + row(380, 1)),
        "tm27-nan": tm27(rows + row(790, "nan")),
        "tm27-reference": tm27(rows + row(790, "1&#0;2"), text="&#27;[31mred&#8238;"),
        "tm27-namespace": tm27(rows, root='<IESTM2714 xmlns="\u202eother">'),
        "tm27-cut": tm27(rows)[:500],
        "tm27-long": tm27(rows, text="x" * 100000),
        "xml-other": b"<?xml version='1.0'?><\xc2\x9b/>",
        "cgats": cgats(sets),
        "cgats-open": cgats(sets, end=""),
        "cgats-count": cgats(sets, head="NUMBER_OF_SETS 1\n"),
        "cgats-counts": cgats(sets, head="NUMBER_OF_FIELDS 99999999999999999999999\n"),
        "cgats-quote": cgats('"red 380 1\n'),
        "cgats-names": cgats(sets.replace("red", '"r, ""e""; d"')),
        "cgats-commas": cgats(sets.replace(".", ",")),
        "cgats-fields": cgats("a" + " 380 1" * 60000 + "\n", "SAMPLE_NAME" + " SPECTRAL_NM SPECTRAL_DEC" * 60000),
        "cgats-no-fields": cgats("1\n", fields=""),
        "cgats-lines": cgats("#\n" * 500000),
        "cgats-readings": cgats("white 255 255 255 95 100 109\nred 255 0 0 41 21 2\n",
                                "SAMPLE_NAME RGB_R RGB_G RGB_B XYZ_X XYZ_Y XYZ_Z"),
        "cgats-lab": cgats("white 100 0 0\n", "SAMPLE_NAME LAB_L LAB_A LAB_B"),
    }


def all_files():
    files = {}
    for part in (bytes_of_no_format(), spectra(), corrections(), readings_files(), proof_files(), exchanged()):
        files.update(part)
    return files
