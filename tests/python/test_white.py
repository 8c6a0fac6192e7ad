"""Displays and their white targets: beside the command's JSON, one by one beside many at once, and as a notebook shows them."""
import html.parser
import json
import os
import pathlib
import subprocess
import unittest

import numpy as np
import samelight as sl

DATA = pathlib.Path(os.environ["SAMELIGHT_DATA"])
DEMO = [str(DATA / "demo" / f"{name}.csv") for name in ("grading-monitor", "client-set", "desk-display", "foyer-display")]
REFERENCE = "crt@0.3127,0.3290"
COMMAND = os.environ.get("SAMELIGHT_EXECUTABLE")


def unit(panel, white=True):
    """Its spectra as a unit of a line."""
    red, green, blue = panel.emitters.T
    return np.array([red, green, blue] + ([red + green + blue] if white else []))


class Demo(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.answer = sl.white(DEMO, REFERENCE)

    @unittest.skipUnless(COMMAND, "the command isn't built")
    def test_is_what_the_command_says(self):
        said = json.loads(subprocess.run([COMMAND, "white", *DEMO, "--reference", REFERENCE, "--json"],
                                         capture_output=True, check=True, text=True).stdout)
        self.assertEqual(len(said["panels"]), 4)
        for part, panel in zip(self.answer.parts, said["panels"]):
            for row, target in zip(part.targets, panel["targets"]):
                np.testing.assert_allclose(row, [target["x"], target["y"]], rtol=0, atol=1e-12)
            self.assertEqual(part.observers, [t["observer"] for t in panel["targets"]])
            self.assertEqual(part.verdict, panel["advice"]["verdict"])
            self.assertEqual(part.warnings, [w["code"] for w in panel["warnings"]])
        own = self.answer.json()
        self.assertEqual(own["schema"], said["schema"])
        self.assertEqual([p["targets"] for p in own["panels"]], [p["targets"] for p in said["panels"]])
        self.assertEqual([p["budget"] for p in own["panels"]], [p["budget"] for p in said["panels"]])

    def test_parts_can_be_read_and_not_written(self):
        part = self.answer.parts[0]
        self.assertEqual(part.targets.shape, (2, 2))
        np.testing.assert_array_equal(part.targets[0], [part.x, part.y])
        self.assertTrue((part.half_widths > 0).all() and (part.half_widths < .02).all())
        self.assertEqual(tuple(part.as_dict()), part._fields)
        self.assertIn("verdict='MOVE'", repr(part))
        with self.assertRaises(AttributeError):
            part.x = 0.0

    def test_a_notebook_shows_the_report(self):
        shown = self.answer._repr_html_()
        found = {}

        class Reader(html.parser.HTMLParser):
            def handle_starttag(self, tag, attributes):
                found.setdefault(tag, dict(attributes))

        Reader().feed(shown)
        # One frame and nothing else, which holds the page whole: with its charts, as the command writes it.
        self.assertEqual(list(found), ["iframe"])
        self.assertEqual(found["iframe"]["srcdoc"], self.answer.html())
        self.assertIn("<svg", self.answer.html())
        self.assertNotIn("<script", self.answer.html())

    def test_takes_panels_paths_and_lists(self):
        panel = sl.panel(pathlib.Path(DEMO[1]))
        for one in (DEMO[1], panel, [panel], pathlib.Path(DEMO[1])):
            part = sl.white(one, sl.reference(REFERENCE)).parts[0]
            self.assertEqual((part.x, part.y), (self.answer.parts[1].x, self.answer.parts[1].y))
        crt = sl.panel("crt").with_white(0.3127, 0.3290)
        part = sl.white(panel, crt).parts[0]
        np.testing.assert_allclose([part.x, part.y], [self.answer.parts[1].x, self.answer.parts[1].y], atol=1e-12)

    def test_takes_observers_people_viewers_and_an_instrument(self):
        panel = sl.panel("oled-rgb")
        answer = sl.white(panel, observers=["cie2006:30:2", sl.observer("cie2015-10deg")], population=sl.Population(64))
        self.assertEqual(answer.parts[0].observers, ["cie2006:30:2", "cie2015-10deg"])
        # For CIE 1931 the target is the reference's own reading, whatever the display.
        own = sl.white(panel, observers="cie1931-2deg").parts[0]
        np.testing.assert_allclose([own.x, own.y], sl.reference("D65").xy, atol=1e-12)
        seen = sl.white(panel, viewers=[[45.0, 4.0], [np.nan, 10.0]]).json()
        self.assertEqual(len(seen["panels"][0]["viewers"]), 2)
        rough = sl.white(panel, instrument=sl.Instrument(reading_noise=.005)).parts[0]
        self.assertTrue((rough.half_widths > sl.white(panel).parts[0].half_widths).all())
        self.assertRaises(sl.InputError, sl.white, panel, instrument=sl.Instrument(reading_noise=-1.0))
        self.assertRaises(sl.ShapeError, sl.white, panel, viewers=[45.0])


class Panels(unittest.TestCase):
    def test_emitters_are_not_copied(self):
        panel = sl.panel("crt")
        rows = panel.emitters
        self.assertEqual(rows.shape, (401, 3))
        self.assertFalse(rows.flags.writeable)
        self.assertEqual(rows.ctypes.data, panel.emitters.ctypes.data)
        kept = rows.copy()
        del panel
        np.testing.assert_array_equal(rows, kept)

    def test_from_spectra(self):
        crt = sl.panel("crt")
        own = sl.panel_from_spectra(unit(crt), crt.wavelengths, name="mine")
        self.assertEqual(own.name, "mine")
        np.testing.assert_allclose(own.native_white, crt.native_white, atol=1e-12)
        self.assertIsNone(sl.panel_from_spectra(unit(crt, white=False), common_scale=False).native_white)
        with self.assertRaises(sl.SingularError):
            sl.panel_from_spectra(unit(crt)[[0, 0, 2]])
        for bad in (unit(crt)[:2], unit(crt)[0]):
            self.assertRaises(sl.ShapeError, sl.panel_from_spectra, bad)

    def test_refusals(self):
        self.assertRaises(sl.SystemRefusal, sl.panel, "no-such-file.csv")
        self.assertRaises(sl.SamelightError, sl.panel, "no-such-type")
        self.assertRaises(sl.InputError, sl.panel, 3)
        self.assertRaises(sl.InputError, sl.reference, 3)
        self.assertRaises(sl.DomainError, sl.panel("crt").with_white, 0.9, 0.05)
        self.assertIn("crt", sl.generic_panel_names())
        flat = sl.reference_from_spectrum(np.ones(401), name="flat")
        np.testing.assert_allclose(flat.xy, sl.xy(sl.xyz(np.ones(401))), atol=1e-12)

    def test_what_is_left_to_go_from_a_measured_white(self):
        panel = sl.panel(DEMO[1])
        stands = panel.with_measured_white(unit(panel)[3])
        target = sl.white(stands, REFERENCE).json()["panels"][0]["targets"][0]
        self.assertIn("left_to_go", target)
        self.assertNotIn("left_to_go", sl.white(panel, REFERENCE).json()["panels"][0]["targets"][0])


class Batch(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        names = [n for n in sl.generic_panel_names()]
        cls.panels = [sl.panel(n) for n in names]
        cls.units = np.array([unit(p) for p in cls.panels])

    def test_is_what_white_says_of_each(self):
        # Of 3 and of 4 lights; to the digits, since both do the same sums.
        for units in (self.units, np.ascontiguousarray(self.units[:, :3])):
            at_once = sl.white_targets(units, reference=REFERENCE, observer="cie2015-10deg")
            sure = sl.white_targets_with_doubt(units, reference=REFERENCE, observer="cie2015-10deg")
            np.testing.assert_allclose(sure.xy, at_once, rtol=0, atol=1e-14)
            for i in range(0, len(units), 2):
                panel = sl.panel_from_spectra(units[i])
                part = sl.white(panel, REFERENCE, observers="cie2015-10deg", population=sl.Population(1)).parts[0]
                np.testing.assert_allclose(at_once[i], [part.x, part.y], rtol=0, atol=1e-12)
                np.testing.assert_allclose(sure.half_widths[i], part.half_widths, rtol=1e-9)

    def test_a_white_emitter_and_black(self):
        wide = self.units[0].copy()
        wide[3] += np.interp(np.arange(380.0, 781.0), [380, 580, 780], [0, wide.max(), 0])
        five = np.array([np.vstack([wide, 1e-3 * wide[3]]) for _ in range(2)])
        five[:, :4] += 1e-3 * wide[3]
        for units in (np.array([wide]), five):
            part = sl.white(sl.panel_from_spectra(units[0]), population=sl.Population(1)).parts[0]
            np.testing.assert_allclose(sl.white_targets(units)[0], [part.x, part.y], rtol=0, atol=1e-12)

    def test_names_the_unit(self):
        for targets in (sl.white_targets, sl.white_targets_with_doubt):
            for bad, kind in ((np.nan, sl.DomainError), (0.0, sl.SamelightError)):
                units = np.array([self.units[0]] * 40)
                units[37, 1] = bad
                with self.assertRaisesRegex(kind, "unit 37"):
                    targets(units)
        for shape in ((4, 401), (2, 2, 401), (2, 6, 401), (0, 4, 401), (2, 4, 400)):
            self.assertRaises(sl.ShapeError, sl.white_targets, np.ones(shape))


if __name__ == "__main__":
    unittest.main()
