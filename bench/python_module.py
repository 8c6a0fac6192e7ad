#!/usr/bin/env python3
"""Processor time of the Python module's batches, beside numpy. Usage: PYTHONPATH=build/ci/python bench/python_module.py"""
import time

import numpy as np
import samelight as sl


def least(call, times):
    """Processor seconds of the quickest of some calls."""
    found = []
    for _ in range(times):
        began = time.process_time()
        call()
        found.append(time.process_time() - began)
    return min(found)


def main():
    spectra = np.random.default_rng(1).random((100000, 401))
    rows = sl.observer("cie1931-2deg").sensitivities()
    own = least(lambda: sl.xyz(spectra), 7)
    product = least(lambda: spectra @ rows.T, 7)
    print(f"100,000 spectra of 401 points: xyz() {own:.4f} s, numpy's product {product:.4f} s, {product / own:.1f} times")
    lab = np.random.default_rng(2).random((2, 1000000, 3)) * 100
    print(f"a million pairs: de2000() {least(lambda: sl.de2000(lab[0], lab[1]), 3):.4f} s")
    red, green, blue = sl.panel("oled-rgb").emitters.T
    for nm in (np.arange(380.0, 781.0), np.arange(380.0, 781.0, 5.0)):
        step = int(nm[1] - nm[0])
        units = np.empty((20000, 4, nm.size))
        for unit, drift in zip(units, np.linspace(.9, 1.1, len(units))):
            unit[:] = drift * red[::step], green[::step], blue[::step] / drift, drift * red[::step] + green[::step] + blue[::step] / drift
        alone = least(lambda: sl.white_targets(units, nm), 3) / len(units)
        sure = least(lambda: sl.white_targets_with_doubt(units[:256], nm), 2) / 256
        print(f"a unit's target, 4 lights of {nm.size} points: {alone * 1e6:.0f} us, a million {alone * 1e6:.0f} s; "
              f"with its doubt {sure * 1e3:.1f} ms")


if __name__ == "__main__":
    main()
