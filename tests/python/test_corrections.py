"""Corrections of a filter meter: from paired readings and from sensitivities."""
import unittest

import numpy as np
import samelight as sl

PATCHES = ["red", "green", "blue", "white"]
REFERENCE = np.array([[48.5, 25.0, 2.3], [42.5, 85.0, 14.2], [22.5, 9.0, 118.5], [113.5, 119.0, 135.0]])
METER = np.array([[47.8, 24.1, 2.6], [43.8, 84.3, 14.9], [22.7, 9.7, 113.9], [114.3, 118.1, 131.4]])
NM = np.arange(380.0, 781.0)


class Fit(unittest.TestCase):
    def test_four_colours_come_out_as_the_reference_read_them(self):
        # ASTM E1455 (from memory): the four-colour matrix brings x, y of the four to the reference's.
        answer = sl.fit_correction(PATCHES, REFERENCE, METER, name="this display")
        corrected = answer.correction.apply(METER)
        np.testing.assert_allclose(sl.xy(corrected.xyz), sl.xy(REFERENCE), atol=1e-12)
        np.testing.assert_allclose(corrected.xyz, METER @ answer.correction.matrix.T, rtol=1e-13)
        self.assertEqual(corrected.outside.tolist(), [False] * 4)
        self.assertEqual(corrected.half_widths.shape, (4, 3))
        self.assertIn(answer.verdict, ("use", "use_unproven", "not_needed", "read_again", "do_not_use"))
        self.assertEqual(answer.json()["schema"], "samelight/meter-fit/1")
        self.assertIn("iframe", answer._repr_html_())

    def test_repeats_say_how_sure_it_is(self):
        rng = np.random.default_rng(5)
        noise = lambda rows: np.vstack([rows * (1 + 2e-4 * rng.standard_normal(rows.shape)) for _ in range(5)])
        rounds = list(np.repeat(np.arange(1, 6), 4))
        answer = sl.fit_correction(PATCHES * 5, noise(REFERENCE), noise(METER), rounds)
        sure = answer.correction.apply(METER[3]).half_widths[0]
        self.assertTrue((sure > 0).all() and (sure < .01).all(), sure)

    def test_reads_back_to_the_bit(self):
        own = sl.fit_correction(PATCHES, REFERENCE, METER).correction
        again = sl.Correction.from_json(own.to_json())
        np.testing.assert_array_equal(again.matrix, own.matrix)
        self.assertEqual((again.method, again.observer), (own.method, own.observer))
        self.assertEqual(again.to_json(), own.to_json())

    def test_refusals(self):
        fit = sl.fit_correction
        self.assertRaises(sl.ShapeError, fit, PATCHES, REFERENCE[:3], METER)
        self.assertRaises(sl.ShapeError, fit, PATCHES, REFERENCE, METER, [1])
        self.assertRaises(sl.DomainError, fit, PATCHES, REFERENCE, METER, [0] * 4)
        self.assertRaises(sl.InputError, fit, PATCHES, REFERENCE, METER, method="best")
        self.assertRaises(sl.InputError, fit, PATCHES, REFERENCE, METER, resamples=1)
        with self.assertRaisesRegex(sl.InputError, "mine"):
            sl.Correction.from_json("{}", "mine")
        own = fit(PATCHES, REFERENCE, METER).correction
        with self.assertRaisesRegex(sl.DomainError, "reading 1"):
            own.apply([[1.0, 1, 1], [np.nan, 1, 1]])


class Model(unittest.TestCase):
    def test_of_an_ideal_meter_is_nothing(self):
        # A meter whose sensitivities are the observer's needs no correction.
        rows = sl.observer("cie1931-2deg").sensitivities(NM)
        answer = sl.model_correction(rows, NM, panel="oled-rgb", name="ideal")
        np.testing.assert_allclose(answer.correction.matrix, np.eye(3), atol=1e-10)

    def test_brings_a_displays_primaries_to_the_observers(self):
        rows = np.array([np.interp(NM - 4.0, NM, r) for r in sl.observer("cie1931-2deg").sensitivities(NM)])
        panel = sl.panel("oled-rgb")
        answer = sl.model_correction(rows, NM, panel=panel)
        lights = panel.emitters.T
        # Second route: numpy's sums.
        np.testing.assert_allclose(sl.xy(lights @ rows.T @ answer.correction.matrix.T), sl.xy(sl.xyz(lights)), atol=1e-9)
        self.assertEqual(answer.json()["schema"], "samelight/meter-model/1")
        self.assertIn("iframe", answer._repr_html_())
        self.assertRaises(sl.ShapeError, sl.model_correction, rows[:2], NM, panel=panel)


if __name__ == "__main__":
    unittest.main()
