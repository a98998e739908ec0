#!/usr/bin/python3
"""The problems of kinetics/still/yardstick_test.go by SciPy: a yardstick, run by speed.py.

    ./speed_scipy.py PROBLEM RTOL [LEAST_SECONDS]

LSODA (ODEPACK, compiled) with the banded Jacobian that it differences itself; the right-hand side is NumPy. The
state is alpha and T of one cell after another, T above that of the start. Prints the same JSON as cvode_bodies.c.
"""
import json
import sys
import time

import numpy as np
from scipy.integrate import solve_ivp

R = 8.314462618  # J/(mol K)


class Body:
    def __init__(self, numbers):
        take = lambda n: [next(numbers) for _ in range(n)]
        self.strict, n, stride, self.horizon = take(4)
        self.n, self.stride = int(n), int(stride)
        self.law, self.glass = take(7), take(5)
        self.alpha, self.start = take(2)
        self.series = []
        for _ in range(2):
            self.series.append(np.array(take(2 * int(next(numbers)))).reshape(-1, 2))
        cells = np.array(take(6 * self.n)).reshape(-1, 6)
        self.capacity, self.heat, self.room, self.wall, self.near, self.far = cells.T.copy()
        self.wet = self.heat > 0
        if not (self.law[4] == 1 and self.law[5] == 2 and self.law[1] == self.law[3]):
            raise SystemExit("speed_scipy: the law is another")

    def rate(self, alpha, kelvin):
        a1, e, a2, _, _, _, _ = self.law
        tg0, tg1, lam, shift, sharpness = self.glass
        a = np.clip(alpha, 0, 1)
        x = (kelvin + shift - tg0) / (tg1 - tg0)
        over = sharpness * (alpha - x / (lam + (1 - lam) * x))
        return np.exp(-e / (R * kelvin)) * (a1 + a2 * a) * (1 - a) ** 2 / (1 + np.exp(np.minimum(over, 500)))

    def derivative(self, t, y):
        alpha, above = y[::2], y[1::2]
        out = np.empty_like(y)
        rate = np.where(self.wet, self.rate(alpha, self.start + above), 0)
        room, wall = (np.interp(t, s[:, 0], s[:, 1]) - self.start for s in self.series)
        watts = self.heat * rate + self.room * (room - above) + self.wall * (wall - above)
        if self.n > 1:
            q = self.near[:-1] * np.diff(above)
            watts[:-1] += q
            watts[1:] -= q
        if self.stride > 1:
            k = self.stride
            q = self.far[:-k] * (above[k:] - above[:-k])
            watts[:-k] += q
            watts[k:] -= q
        out[::2], out[1::2] = rate, watts / self.capacity
        return out

    def solve(self, rtol):
        gel = self.law[6]
        event = lambda t, y: y[::2][self.wet].max() - gel
        y = np.empty(2 * self.n)
        y[::2], y[1::2] = self.alpha, 0
        atol = np.empty(2 * self.n)
        atol[::2], atol[1::2] = rtol * 1e-2, rtol * 10
        width = 1 if self.n == 1 else 2 * self.stride
        kinks = sorted({0.0, self.horizon, *(t for s in self.series for t in s[:, 0] if 0 < t < self.horizon)})
        found, rhs = None, 0
        for low, high in zip(kinks, kinks[1:]):
            s = solve_ivp(self.derivative, (low, high), y, "LSODA", rtol=rtol, atol=atol, events=event, lband=width, uband=width)
            if not s.success:
                raise SystemExit(f"speed_scipy: {s.message}")
            if found is None and len(s.t_events[0]):
                found = float(s.t_events[0][0])
            y, rhs = s.y[:, -1], rhs + s.nfev
        return found, rhs


def main():
    numbers = iter(map(float, open(sys.argv[1]).read().split()))
    rtol, least = float(sys.argv[2]), float(sys.argv[3]) if len(sys.argv) > 3 else 0.0
    count = int(next(numbers))
    next(numbers)
    bodies = [Body(numbers) for _ in range(count)]
    best, began = float("inf"), time.perf_counter()
    while True:
        start = time.perf_counter()
        found = [b.solve(rtol) for b in bodies]
        now = time.perf_counter()
        best = min(best, now - start)
        if now - began >= least:
            break
    print(json.dumps({"ms": best * 1e3, "rhs": sum(n for _, n in found), "gel_s": [t for t, _ in found]}))


if __name__ == "__main__":
    main()
