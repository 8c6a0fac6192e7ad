"""The rule by which data/reflectances.csv is chosen from the reflectance sets of psychtoolbox-3-common.

Three sets are used, each at 400 to 700 nm by 10 nm, wavelengths that all three tabulate, so that no number is
interpolated or extrapolated:

    vrhel      170 surfaces, natural and man-made, 390-730 nm by 2 nm, with labels
    koivisto   219 plants, 400-700 nm by 5 nm, with labels; 12-bit integers, here divided by 4096
    nickerson  462 papers of the Munsell collection, 400-700 nm by 5 nm, without labels

Not used: sur_krinov, which ends at 650 nm where foliage turns bright, and the chart of a maker that the package also holds.

Each group below takes its candidates by the labels of the source or by where they lie in CIELAB (CIE 1931
observer, D65; below 400 and above 700 nm the end values are held), and from them the wanted number by farthest
points: first the candidate farthest from the mean of all, then again and again the one whose nearest chosen
neighbour is farthest, by the distance in CIELAB. Ties go to the earlier column, sets in the order above.

A column is named GROUP_SET_NUMBER, NUMBER being its column in the set, counted from 1.
"""

import pathlib
import re
from dataclasses import dataclass

import numpy as np
import scipy.io

WAVELENGTHS = np.arange(400, 701, 10)
D65_WEIGHTS = np.array([1.0, -0.295, -0.689])  # of the three components of daylight, CIE 15:2018, Table T.1
UNIT = {"vrhel": 1.0, "koivisto": 1.0 / 4096.0, "nickerson": 1.0}
# The first bands of the koivisto set are noisy: a spectrum that bends more than this from one 10 nm step to the
# next, anywhere, is left out of every group.
KOIVISTO_LARGEST_BEND = 0.1


@dataclass(frozen=True)
class Candidate:
    """One measured surface."""

    source: str
    number: int
    label: str
    values: np.ndarray
    lab: np.ndarray

    @property
    def chroma(self) -> float:
        return float(np.hypot(self.lab[1], self.lab[2]))

    @property
    def hue(self) -> float:
        return float(np.degrees(np.arctan2(self.lab[2], self.lab[1])) % 360.0)


SKIN = re.compile(r"skin\b", re.IGNORECASE)  # at the beginning of the label; fruit has skins too
LEAF = re.compile(r"lea(f|ves)\b|needle|neadle|grass|lettuce|cabbage|cucumber|pepper", re.IGNORECASE)
FLOWER = re.compile(r"flower|petal|berry", re.IGNORECASE)


def is_neutral(c: Candidate) -> bool:
    return c.source != "koivisto" and not SKIN.match(c.label) and c.chroma <= 6.0


def is_skin(c: Candidate) -> bool:
    return c.source == "vrhel" and SKIN.match(c.label) is not None


def is_foliage(c: Candidate) -> bool:
    return LEAF.search(c.label) is not None and 80.0 <= c.hue <= 170.0


def is_saturated(c: Candidate) -> bool:
    plain = c.source != "koivisto" or FLOWER.search(c.label) is not None
    return plain and not is_skin(c) and LEAF.search(c.label) is None and c.chroma >= 25.0


GROUPS = (("neutral", is_neutral, 20), ("skin", is_skin, 20), ("foliage", is_foliage, 24),
          ("saturated", is_saturated, 76))


def labels_of(content: dict, source: str, count: int) -> list[str]:
    """The labels of a set as plain text, or empty ones where it has none."""
    if "labels_" + source not in content:
        return [""] * count
    texts = []
    for entry in content["labels_" + source].ravel():
        label = entry["label"]
        while isinstance(label, np.ndarray):
            label = label.ravel()[0]
        texts.append(re.sub(r"\s+", " ", str(label)))
    if len(texts) != count:
        raise SystemExit(f"sur_{source}.mat: {len(texts)} labels for {count} spectra")
    return texts


def lab_weights(folder: pathlib.Path) -> np.ndarray:
    """3 x 31: what each of WAVELENGTHS adds to X/Xn, Y/Yn, Z/Zn, the ends with all that lies beyond them."""
    cmf = scipy.io.loadmat(str(folder / "T_xyz1931.mat"))
    daylight = scipy.io.loadmat(str(folder / "B_cieday.mat"))
    grid = np.arange(380, 781, 10)
    at = [grid_of(content[name]).searchsorted(grid) for content, name in ((cmf, "S_xyz1931"), (daylight, "S_cieday"))]
    full = np.asarray(cmf["T_xyz1931"], dtype=float)[:, at[0]] * (daylight["B_cieday"][at[1]] @ D65_WEIGHTS)
    inside = (grid >= WAVELENGTHS[0]) & (grid <= WAVELENGTHS[-1])
    held = full[:, inside]
    held[:, 0] += full[:, grid < WAVELENGTHS[0]].sum(axis=1)
    held[:, -1] += full[:, grid > WAVELENGTHS[-1]].sum(axis=1)
    return held / full.sum(axis=1, keepdims=True)


def grid_of(sampling: np.ndarray) -> np.ndarray:
    first, step, count = (int(number) for number in sampling.ravel())
    return first + step * np.arange(count)


def lab_of(values: np.ndarray, weights: np.ndarray) -> np.ndarray:
    ratios = weights @ values
    f = np.where(ratios > (24 / 116) ** 3, np.cbrt(ratios), 841 / 108 * ratios + 16 / 116)
    return np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])


def candidates_of(folder: pathlib.Path, source: str, weights: np.ndarray) -> list[Candidate]:
    """All usable spectra of a set."""
    content = scipy.io.loadmat(str(folder / f"sur_{source}.mat"))
    grid = grid_of(content["S_" + source])
    rows = grid.searchsorted(WAVELENGTHS)
    if not np.array_equal(grid[rows], WAVELENGTHS):
        raise SystemExit(f"sur_{source}.mat: doesn't tabulate every 10 nm from 400 to 700 nm")
    spectra = np.asarray(content["sur_" + source], dtype=float)[rows].T * UNIT[source]
    result = []
    for index, (values, label) in enumerate(zip(spectra, labels_of(content, source, len(spectra)))):
        if source == "koivisto" and np.abs(np.diff(values, 2)).max() > KOIVISTO_LARGEST_BEND:
            continue
        result.append(Candidate(source, index + 1, label, values, lab_of(values, weights)))
    return result


def farthest_points(candidates: list[Candidate], count: int) -> list[Candidate]:
    """`count` of them, each as far as can be from those already chosen."""
    if len(candidates) < count:
        raise SystemExit(f"reflectances: {len(candidates)} candidates, wanted {count}")
    places = np.array([c.lab for c in candidates])
    distance = np.linalg.norm(places - places.mean(axis=0), axis=1)
    chosen: list[int] = []
    for _ in range(count):
        index = int(np.argmax(distance))
        nearest = np.linalg.norm(places - places[index], axis=1)
        distance = nearest if not chosen else np.minimum(distance, nearest)
        chosen.append(index)
    return [candidates[index] for index in sorted(chosen)]


def choose(folder: pathlib.Path) -> tuple[np.ndarray, list[str], np.ndarray]:
    """Wavelengths (31) in nm, names (140) and reflectances (31 x 140)."""
    weights = lab_weights(folder)
    everything = [c for source in UNIT for c in candidates_of(folder, source, weights)]
    names: list[str] = []
    columns: list[np.ndarray] = []
    for group, belongs, count in GROUPS:
        for c in farthest_points([c for c in everything if belongs(c)], count):
            names.append(f"{group}_{c.source}_{c.number:03d}")
            columns.append(c.values)
    if len(set(names)) != len(names) or len({name.split("_", 1)[1] for name in names}) != len(names):
        raise SystemExit("reflectances: one spectrum in two groups")
    return WAVELENGTHS, names, np.array(columns).T
