"""People: their targets, and how far they will disagree about displays."""
import json
import os
import subprocess
import unittest

import numpy as np
import samelight as sl

COMMAND = os.environ.get("SAMELIGHT_EXECUTABLE")


class People(unittest.TestCase):
    def test_targets_and_what_sums_them_up(self):
        people = sl.Population(512)
        self.assertEqual(len(people), 512)
        panel = sl.panel("oled-rgb")
        cloud = people.targets(panel, "D65")
        self.assertEqual(cloud.shape, (512, 2))
        spread = people.spread(panel, "D65")
        # Second route: numpy's moments.
        self.assertEqual((spread.people, spread.without_target), (512, 0))
        np.testing.assert_allclose(spread.mean, cloud.mean(axis=0), rtol=1e-12)
        np.testing.assert_allclose(spread.median, np.median(cloud, axis=0), atol=2e-5)
        np.testing.assert_allclose(spread.covariance, np.cov(cloud.T), rtol=1e-9)
        # The ellipse that holds 95 % of a normal distribution in two dimensions: chi-square of 2, 5.991.
        values = np.linalg.eigvalsh(spread.covariance)[::-1]
        np.testing.assert_allclose(spread.semi_axes, np.sqrt(values * -2 * np.log(.05)), rtol=1e-9)

    def test_a_person_is_the_same_everywhere(self):
        panel = sl.panel("crt")
        many = sl.Population(256).targets(panel, "D50")
        np.testing.assert_allclose(sl.Population(64).targets(panel, "D50"), many[:64], rtol=0, atol=1e-15)
        self.assertFalse(np.array_equal(sl.Population(64, seed=2).targets(panel, "D50"), many[:64]))
        younger = sl.Population(256, oldest=25.0).targets(panel, "D50")
        self.assertFalse(np.allclose(younger.mean(axis=0), many.mean(axis=0), atol=1e-5))

    def test_refusals(self):
        for bad in (dict(count=0), dict(count=-5), dict(count=10**7), dict(youngest=10.0), dict(oldest=15.0), dict(field=0.5)):
            self.assertRaises(sl.DomainError, sl.Population, **bad)


class Metamerism(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.names = ["crt", "oled-rgb", sl.generic_panel_names()[-1]]
        cls.answer = sl.metamerism(cls.names)

    @unittest.skipUnless(COMMAND, "the command isn't built")
    def test_is_what_the_command_says(self):
        said = json.loads(subprocess.run([COMMAND, "metamerism", *self.names, "--json"],
                                         capture_output=True, check=True, text=True).stdout)
        every = sl.metamerism(self.names, every_index=True)
        self.assertEqual(every.json()["pairs"], said["pairs"])
        for own, pair in zip(every.pairs, said["pairs"]):
            whites = [setting["white"]["de00"] for setting in pair["settings"]]
            for name, figure in (("mean", own.white_mean), ("two_in_three", own.white_two_in_three),
                                 ("p95", own.white_p95), ("largest", own.white_largest)):
                np.testing.assert_array_equal(figure, [white[name] for white in whites])
        # Without the other indices colours are worked out in single precision.
        for own, exact in zip(self.answer.pairs, every.pairs):
            np.testing.assert_allclose(own.white_mean, exact.white_mean, rtol=1e-11)
            np.testing.assert_allclose(own.colours_mean, exact.colours_mean, rtol=1e-6)

    def test_every_pair_in_three_settings(self):
        self.assertEqual([(p.first, p.second) for p in self.answer.pairs],
                         [(self.names[i], self.names[k]) for i, k in ((0, 1), (0, 2), (1, 2))])
        for pair in self.answer.pairs:
            for figure in (pair.white_mean, pair.white_two_in_three, pair.white_p95, pair.white_largest, pair.colours_mean):
                self.assertEqual(figure.shape, (3,))
            self.assertTrue((pair.white_mean < pair.white_p95).all() and (pair.white_p95 <= pair.white_largest).all())
        self.assertIn("<svg", self.answer.html())
        self.assertIn("iframe", self.answer._repr_html_())

    def test_refusals(self):
        self.assertRaises(sl.SamelightError, sl.metamerism, ["crt"])
        self.assertRaises(sl.SamelightError, sl.metamerism, ["crt", "oled-rgb"], population=sl.Population(5))
        self.assertRaises(sl.InputError, sl.metamerism, ["crt", "oled-rgb"], population=1024)
        self.assertRaises(sl.InputError, sl.white, "crt", population=1024)
        self.assertRaises(sl.SamelightError, sl.white, [])
        self.assertRaises(TypeError, sl.metamerism, ["crt", "oled-rgb"], people=5)


if __name__ == "__main__":
    unittest.main()
