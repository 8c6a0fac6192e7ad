"""What takes long lets other threads go on meanwhile."""
import threading
import time
import unittest

import numpy as np
import samelight as sl


def ticks_within(call):
    """How often another thread got its turn in the middle of a call."""
    ticks, done = [], threading.Event()

    def tick():
        while not done.is_set():
            ticks.append(time.monotonic())
            time.sleep(.001)

    other = threading.Thread(target=tick)
    other.start()
    began = time.monotonic()
    call()
    ended = time.monotonic()
    done.set()
    other.join()
    edge = .1 * (ended - began)
    return sum(began + edge < at < ended - edge for at in ticks)


class Threads(unittest.TestCase):
    def test_long_calls_release_the_interpreters_lock(self):
        # What holds it gives none a turn.
        self.assertEqual(ticks_within(lambda: sum(range(10**7))), 0)
        spectra = np.random.default_rng(1).random((100000, 401))
        panel = sl.panel("oled-rgb")
        units = np.array([[*panel.emitters.T]] * 1000)
        for name, call in (("xyz", lambda: sl.xyz(spectra)),
                           ("de2000", lambda: sl.de2000(spectra[:, :3].repeat(3, axis=0), spectra[0, :3])),
                           ("targets of people", lambda: sl.Population(10000).targets(panel)),
                           ("white", lambda: sl.white([panel] * 4)),
                           ("white_targets", lambda: sl.white_targets(units)),
                           ("white_targets_with_doubt", lambda: sl.white_targets_with_doubt(units[:32])),
                           ("metamerism", lambda: sl.metamerism(["crt", "oled-rgb"], population=sl.Population(1024)))):
            with self.subTest(name):
                # A machine with much else to do may give none once.
                self.assertTrue(any(ticks_within(call) > 0 for _ in range(5)))

    def test_no_digit_depends_on_the_threads_that_the_work_is_divided_over(self):
        panel, people = sl.panel("oled-rgb"), sl.Population(300)
        rng = np.random.default_rng(3)
        names = ["red", "green", "blue", "white"] * 3
        read = np.array([[40, 20, 1], [30, 60, 8], [18, 8, 95], [88, 88, 104]] * 3) * (1 + .002 * rng.random((12, 3)))
        rounds = [1] * 4 + [2] * 4 + [3] * 4
        proof = sl.PatchReadings(read[:4], ["red", "green", "blue", "white"])
        for name, call in (("targets of people", lambda n: people.targets(panel, threads=n).tobytes()),
                           ("spread", lambda n: people.spread(panel, threads=n).covariance.tobytes()),
                           ("white", lambda n: sl.white([panel, "crt"], population=people, threads=n).json()),
                           ("metamerism", lambda n: sl.metamerism(["crt", panel], population=sl.Population(64), every_index=True,
                                                                  threads=n).json()),
                           ("fit_correction", lambda n: sl.fit_correction(names, read, read * [1.02, 1, .98], rounds, resamples=600,
                                                                          threads=n).json()),
                           ("check", lambda n: sl.check(proof, threads=n).json())):
            with self.subTest(name):
                alone = call(1)
                for threads in (2, 3, 0):
                    self.assertEqual(call(threads), alone)

    def test_threads_at_once_give_the_same(self):
        spectra = np.random.default_rng(2).random((20000, 401))
        panel = sl.panel("crt")
        wanted = sl.xyz(spectra), sl.Population(512).targets(panel)
        found = []
        threads = [threading.Thread(target=lambda: found.append((sl.xyz(spectra), sl.Population(512).targets(panel))))
                   for _ in range(4)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        self.assertEqual(len(found), 4)
        for pair in found:
            for own, want in zip(pair, wanted):
                np.testing.assert_array_equal(own, want)


if __name__ == "__main__":
    unittest.main()
