#!/usr/bin/env python3
"""Fourteen days of one battery, a fridge, a lamp and a charger at one-minute steps, in numpy: prints the seconds.

What somebody would write who has no closed form: two wells, volts by a table, the fridge's share of the time.
"""
import time

import numpy as np

C, K, WHOLE, OHMS = 0.678, 0.419 / 60, 127.0, 0.0035  # per minute, ampere-hours
LEVELS = np.array([0.0, 0.25, 0.5, 0.75, 1.0])
VOLTS = np.array([10.5, 12.0, 12.3, 12.6, 12.85])


def trip():
    wells = np.array([C * WHOLE, (1 - C) * WHOLE])
    flow = np.array([[-(1 - C) * K, C * K], [(1 - C) * K, -C * K]])
    lowest = 1.0
    for minute in range(14 * 24 * 60):
        hour = minute % 1440 / 60
        around = 21 + 12 * np.sin((hour - 9) * np.pi / 12)
        duty = 0.08 + 0.011 * max(around - 4, 0)
        level = wells[0] / (C * WHOLE)
        volts = np.interp(level, LEVELS, VOLTS)
        amps = duty * 48 / volts + (0.5 if 18.5 <= hour < 22 else 0) + (0.7 if hour >= 18.5 or hour < 6 else 0)
        if 7.5 <= hour < 9 or 16.5 <= hour < 17.25:
            room = (14.4 - volts) / (OHMS + 0.012 * (1.002 - level) ** -0.87)
            amps -= min(25.0, max(room, 0.0))
        wells = wells + flow @ wells + np.array([-amps / 60, 0.0])
        lowest = min(lowest, wells.sum() / WHOLE)
    return lowest


start = time.perf_counter()
trip()
print(time.perf_counter() - start)
