"""Spectra to X, Y, Z and colours: beside numpy's products, tables and published pairs; shapes, layouts and refusals."""
import unittest

import numpy as np
import samelight as sl

NM = np.arange(380.0, 781.0)


def lights(n, m=401):
    return np.random.default_rng(7).random((n, m))


class Xyz(unittest.TestCase):
    def test_is_the_product_with_the_sensitivities(self):
        # Second route: numpy. CIE 15:2018, 7.1: the sum of products times the step.
        spectra = lights(500)
        for name in sl.observer_names() + ["cie2006:64:4"]:
            rows = sl.observer(name).sensitivities(NM)
            wanted = spectra @ rows.T
            np.testing.assert_allclose(sl.xyz(spectra, observer=name), wanted, rtol=1e-13)
            np.testing.assert_allclose(sl.xyz(spectra, NM, sl.observer(name)), wanted, rtol=1e-13)

    def test_of_other_wavelengths_is_their_own_plain_sum(self):
        for nm in (np.arange(380.0, 781.0, 5.0), np.array([400.0, 410.0, 425.0, 433.0, 500.5, 610.0, 700.0])):
            width = np.gradient(nm)
            width[0], width[-1] = nm[1] - nm[0], nm[-1] - nm[-2]
            # The table is linear between its wavelengths, so a sample's light counts by at() of its own.
            rows = sl.observer("cie1931-2deg").sensitivities(NM)
            at = np.array([np.interp(nm, NM, row) for row in rows])
            for count in (2, 3000):
                spectra = lights(count, nm.size)
                np.testing.assert_allclose(sl.xyz(spectra, nm), (spectra * width) @ at.T, rtol=1e-12)

    def test_of_one_is_one(self):
        one = lights(1)[0]
        self.assertEqual(sl.xyz(one).shape, (3,))
        np.testing.assert_array_equal(sl.xyz(one), sl.xyz(one[np.newaxis])[0])

    def test_reads_any_layout(self):
        spectra = lights(50)
        wanted = sl.xyz(spectra)
        np.testing.assert_array_equal(sl.xyz(np.asfortranarray(spectra)), wanted)
        np.testing.assert_array_equal(sl.xyz(lights(100).copy()[:50]), wanted[:50])
        np.testing.assert_array_equal(sl.xyz(spectra[::2]), wanted[::2])
        np.testing.assert_array_equal(sl.xyz(spectra.tolist()), wanted)
        np.testing.assert_array_equal(sl.xyz((spectra > .5).astype(np.int32)), sl.xyz((spectra > .5) * 1.0))

    def test_names_the_spectrum_that_is_none(self):
        for count, m, nm in ((1000, 401, None), (3, 81, np.arange(380.0, 781.0, 5.0)), (900, 81, np.arange(380.0, 781.0, 5.0))):
            for bad in (np.nan, np.inf, -np.inf):
                spectra = lights(count, m)
                spectra[count - 1, 17] = bad
                with self.assertRaises(sl.DomainError) as caught:
                    sl.xyz(spectra, nm)
                self.assertIn(f"spectrum {count - 1}", str(caught.exception))


class Colours(unittest.TestCase):
    def test_x_y_and_u_v(self):
        # By hand from the definitions, CIE 15:2018, 7.3 and 8.2.1.
        X, Y, Z = rows = np.array([[41.0, 36.0, 32.0], [95.0, 100.0, 108.9]]).T
        np.testing.assert_allclose(sl.xy(rows.T), np.array([X, Y]).T / (X + Y + Z)[:, np.newaxis], rtol=1e-14)
        w = X + 15 * Y + 3 * Z
        np.testing.assert_allclose(sl.uv(rows.T), np.array([4 * X / w, 9 * Y / w]).T, rtol=1e-14)
        with self.assertRaisesRegex(sl.DomainError, "row 1"):
            sl.xy([[1.0, 1, 1], [0, 0, 0]])

    def test_lab(self):
        # The definition, CIE 15:2018, 8.2.1.1.
        white = np.array([95.05, 100.0, 108.88])
        rows = np.random.default_rng(3).random((1000, 3)) * 100
        f = np.where(rows / white > (24 / 116) ** 3, np.cbrt(rows / white), (841 / 108) * (rows / white) + 16 / 116)
        wanted = np.array([116 * f[:, 1] - 16, 500 * (f[:, 0] - f[:, 1]), 200 * (f[:, 1] - f[:, 2])]).T
        np.testing.assert_allclose(sl.lab(rows, white), wanted, atol=1e-11)
        np.testing.assert_array_equal(sl.lab(rows[5], white), sl.lab(rows, white)[5])
        for bad in ([0.0, 1, 1], [np.nan, 1, 1]):
            self.assertRaises(sl.DomainError, sl.lab, rows, bad)
        self.assertRaises(sl.ShapeError, sl.lab, rows, [white])

    def test_ciede2000(self):
        # Sharma, Wu, Dalal (2005), Table 1: pairs 1, 7, 17, 25, four decimals.
        a = [[50, 2.6772, -79.7751], [50, 0, 0], [50, 2.5, 0], [60.2574, -34.0099, 36.2677]]
        b = [[50, 0, -82.7485], [50, -1, 2], [73, 25, -18], [60.4626, -34.1751, 39.4387]]
        np.testing.assert_allclose(sl.de2000(a, b), [2.0425, 2.3669, 27.1492, 1.2644], atol=5e-5)
        self.assertIsInstance(sl.de2000(a[0], b[0]), float)
        np.testing.assert_array_equal(sl.de2000(a, b[0]), sl.de2000(a, [b[0]] * 4))
        # Longer than what is taken apart at a time.
        self.assertEqual(set(sl.de2000([a[0]] * 1000, b[0])), {sl.de2000(a[0], b[0])})
        self.assertRaises(sl.ShapeError, sl.de2000, a, b[:2])
        with self.assertRaisesRegex(sl.DomainError, "lab2, row 2"):
            sl.de2000(a, b[:2] + [[np.nan, 0, 0]] + b[3:])


class Refusals(unittest.TestCase):
    def test_errors_have_a_hierarchy_and_parts(self):
        for kind in (sl.DomainError, sl.ShapeError, sl.SingularError, sl.ObserverError, sl.InputError):
            self.assertTrue(issubclass(kind, sl.SamelightError) and issubclass(kind, ValueError))
        self.assertTrue(issubclass(sl.SystemRefusal, sl.SamelightError) and issubclass(sl.SystemRefusal, OSError))
        with self.assertRaises(sl.ShapeError) as caught:
            sl.xyz(np.ones((2, 400)))
        error = caught.exception
        self.assertEqual(str(error), f"{error.place}: {error.found}; wanted {error.wanted}")
        self.assertIn("400", error.found)
        self.assertEqual((error.line, error.column), (0, 0))

    def test_what_is_no_array_of_numbers(self):
        for bad in ("spectra", None, np.ones((2, 401), complex), [[1.0, 2.0], [3.0]], {"a": 1}, np.ones((2, 401)) > 0):
            self.assertRaises(sl.InputError, sl.xyz, bad)
        for bad in (1.0, np.ones((2, 2, 401)), np.ones((0, 401)), np.ones((2, 0)), []):
            self.assertRaises(sl.SamelightError, sl.xyz, bad)

    def test_wavelengths(self):
        for bad in (NM[::-1], NM * 0, NM * np.nan, NM - 400):
            self.assertRaises(sl.DomainError, sl.xyz, lights(2), bad)
        self.assertRaises(sl.ShapeError, sl.xyz, lights(2), NM[1:])

    def test_observers(self):
        self.assertRaises(sl.DomainError, sl.observer, "nobody")
        self.assertRaises(sl.DomainError, sl.observer_of_age, 12.0)
        self.assertRaises(sl.InputError, sl.xyz, lights(2), NM, 3)
        own = sl.own_observer("mine", NM[::10], np.eye(3, 41), "lms")
        self.assertEqual((own.id, own.receptors), ("mine", "lms"))
        np.testing.assert_array_equal(own.sensitivities(NM[::10]), np.eye(3, 41))
        self.assertRaises(sl.DomainError, sl.own_observer, "cie1931-2deg", NM[::10], np.eye(3, 41))
        self.assertRaises(sl.ShapeError, sl.own_observer, "mine", NM[::10], np.eye(2, 41))
        self.assertRaises(sl.DomainError, sl.own_observer, "mine", [400.0, 410, 425], np.eye(3, 3))


if __name__ == "__main__":
    unittest.main()
