"""The proof of the work, on readings of a display that shows what it is meant to, and of one whose white is off."""
import unittest

import numpy as np
import samelight as sl

# ITU-R BT.709-6, 1.3 and 1.4: primaries and white.
PRIMARIES = np.array([[.64, .33], [.30, .60], [.15, .06]])
D65 = (.3127, .3290)
GREYS = [(f"grey-{n}", [n / 100] * 3) for n in range(10, 100, 10)]
SIGNALS = dict([("white", [1, 1, 1]), *GREYS, ("red-100", [1, 0, 0]), ("green-100", [0, 1, 0]), ("blue-100", [0, 0, 1]),
                ("cyan-100", [0, 1, 1]), ("magenta-100", [1, 0, 1]), ("yellow-100", [1, 1, 0]), ("red-50", [.5, 0, 0])])
NAMES, SHOWN = list(SIGNALS), np.array(list(SIGNALS.values()), float)


def readings(white=D65, exponent=2.4, signals=SHOWN):
    """X, Y, Z of a display of 100 cd/m2: the encoding's matrix by hand, and a power."""
    columns = np.array([[x / y, 1, (1 - x - y) / y] for x, y in PRIMARIES]).T
    x, y = white
    matrix = columns * np.linalg.solve(columns, [x / y, 1, (1 - x - y) / y])
    return 100 * signals ** exponent @ matrix.T


class Check(unittest.TestCase):
    def test_passes_what_is_right(self):
        answer = sl.check(sl.PatchReadings(readings(), NAMES, SHOWN), curve="power:2.4")
        self.assertEqual(answer.verdict, "pass")
        self.assertLess(answer.largest, 1e-6)
        self.assertGreater(answer.probability, .99)
        self.assertEqual((answer.patches, answer.patches_over_gate, answer.causes), (len(NAMES), 0, []))
        self.assertEqual(answer.json()["schema"], "samelight/check/1")
        self.assertIn("<svg", answer.html())
        self.assertIn("iframe", answer._repr_html_())

    def test_finds_a_white_that_is_off(self):
        off = (.300, .310)
        now = sl.PatchReadings(readings(off), NAMES, SHOWN, name="now")
        answer = sl.check(now, curve="power:2.4", before=sl.PatchReadings(readings(exponent=2.0), signals=SHOWN))
        self.assertEqual(answer.verdict, "fail")
        cause = answer.causes[0]
        self.assertEqual(cause.code, "white_off")
        np.testing.assert_allclose(cause.offset, np.subtract(off, D65), atol=2e-4)
        self.assertGreater(answer.largest, 3.0)
        self.assertIn(answer.largest_patch, NAMES)
        # About the white that was chosen it is right.
        self.assertEqual(sl.check(now, curve="power:2.4", white=off).verdict, "pass")

    def test_corrects_readings_first(self):
        reference = readings()
        meter = reference * [1.02, 1.0, .97]
        four = [NAMES.index(n) for n in ("red-100", "green-100", "blue-100", "white")]
        own = sl.fit_correction(["red", "green", "blue", "white"], reference[four], meter[four]).correction
        read = sl.PatchReadings(meter, NAMES, SHOWN)
        self.assertGreater(sl.check(read, curve="power:2.4").largest, 1.0)
        self.assertLess(sl.check(read, curve="power:2.4", correction=own).largest, .01)

    def test_refusals(self):
        read = sl.PatchReadings(readings(), NAMES)
        self.assertEqual(len(read), len(NAMES))
        for bad in (dict(gate=0.0), dict(bits=7), dict(encoding="file.icc"), dict(encoding="nothing"), dict(curve="nothing")):
            self.assertRaises(sl.InputError, sl.check, read, **bad)
        self.assertRaises(sl.DomainError, sl.check, read, white=(.9, .9))
        self.assertRaises(sl.ShapeError, sl.PatchReadings, readings(), NAMES[1:])
        self.assertRaises(sl.ShapeError, sl.PatchReadings, readings(), NAMES, SHOWN[1:])
        self.assertRaises(sl.InputError, sl.PatchReadings, readings())
        with self.assertRaisesRegex(sl.DomainError, "reading 0"):
            sl.PatchReadings([[np.nan, 1, 1]], ["white"])
        with self.assertRaisesRegex(sl.DomainError, "reading 0"):
            sl.PatchReadings([[1.0, 1, 1]], None, [[2.0, 0, 0]])


if __name__ == "__main__":
    unittest.main()
