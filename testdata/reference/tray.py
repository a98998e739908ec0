#!/usr/bin/python3
"""A tray of resin at rest in three dimensions, by finite volumes: what a slab without upright walls errs by.

    ./tray.py           solve the cases below, write tray_results.json
    ./tray.py --check   solve them again on fewer cells, compare with tray_results.json; exit 1 if they differ

A quarter of a rectangular tray: x and y from the middle, where nothing flows, to the walls; z from the floor up.

    rho cp dT/dt = k (T_xx + T_yy + T_zz) + rho H dalpha/dt                  dalpha/dt = rate(alpha, T)
    what leaves a face to the room: h (T - T_room), h_s on top, h_w at floor and walls

Resin: epoxy-ipda of the catalogue, its constants written out below. Cells of equal size, temperatures in their
middles, half a cell and h in a row at a face; BDF with the Jacobian given. Nothing is in common with the Go code
but the equations. "Hottest" is the middle of the plan: the even parabola through the two cells nearest to it, and
the parabola through the highest cell and its neighbours above and below.

Results: when the hottest place reaches limit_K, when it gels (null: never), and its highest temperature; from
N[1] and N[2] cells by Richardson's rule of second order, and on each grid alone. A case fails when what N[0]
and N[1] cells say by the same rule differs from that by more than 1.5e-3 of a time, a tenth of what the slab may
err by where a tray is wide, or 1 K of a peak; 10 K above 200 °C, where a front burns through between the cells.
"""
import json
import math
import pathlib
import sys

import numpy as np
from scipy.integrate import solve_ivp
from scipy.interpolate import CubicSpline
from scipy.sparse import bmat, diags, eye, kron

R = 8.314462618
A1, A2, E, HEAT, GEL = 9.065e4, 9.065e5, 56e3, 430e3, 0.577  # 1/s, J/mol, J/kg
SHIFT, SHARP, TG0, TG1, LAMBDA = 10.0, 60.0, 238.15, 393.15, 0.36
RHO, CP, K = 1110.0, 2200.0, 0.20
N = ((6, 6, 8), (9, 9, 12), (12, 12, 16))
HERE = pathlib.Path(__file__).resolve().parent

# name, length, width, depth in mm, room and resin in °C, h on top and at floor and walls, limit in °C, hours
CASES = [
    ("wide-10mm-cool", 300, 120, 10, 20, 20, 10, 6, 28, 8),
    ("usual-15mm", 300, 120, 15, 23, 23, 10, 6, 40, 6),
    ("usual-15mm-warm", 300, 120, 15, 30, 30, 10, 6, 45, 4),
    ("usual-25mm", 300, 120, 25, 23, 23, 10, 6, 40, 6),
    ("three-depths-40mm", 300, 120, 40, 23, 23, 10, 6, 40, 6),
    ("three-depths-20mm-fan", 60, 60, 20, 25, 25, 25, 20, 35, 6),
    ("five-depths-8mm-wood", 200, 40, 8, 25, 25, 10, 4.5, 32, 8),
    ("warm-resin-12mm", 300, 120, 12, 20, 32, 10, 6, 40, 6),
    ("two-depths-40mm", 120, 80, 40, 23, 23, 10, 6, 40, 6),
    ("two-depths-15mm", 40, 30, 15, 28, 28, 10, 6, 33, 8),
    ("deep-75mm", 150, 120, 75, 25, 25, 10, 6, 40, 6),
    ("as-deep-as-wide-30mm-fan", 90, 30, 30, 25, 25, 25, 20, 35, 6),
]


def line(n, length):
    """Second differences of a line of cells without losses, in 1/m², and a cell's size."""
    size = length / n
    d = diags([np.ones(n - 1), np.r_[1, 2 * np.ones(n - 2), 1] * -1.0, np.ones(n - 1)], [-1, 0, 1])
    return d / size**2, size


def outside(n, size, low, high):
    """What the end cells of a line lose outwards, in W/K per W/m of conductivity: 1/m²."""
    v = np.zeros(n)
    for i, h in ((0, low), (-1, high)):
        if h:
            v[i] += 1 / (size / 2 / K + 1 / h) / size / K
    return diags(v)


def operator(n, case):
    _, length, width, depth, _, _, hs, hw, _, _ = case
    parts = []
    for cells, metres, low, high in zip(n, (length / 2e3, width / 2e3, depth / 1e3), (0, 0, hw), (hw, hw, hs)):
        d, size = line(cells, metres)
        parts.append(d - outside(cells, size, low, high))
    x, y, z = parts
    i, j, k = (eye(c) for c in n)
    return (K / (RHO * CP)) * (kron(kron(x, j), k) + kron(kron(i, y), k) + kron(kron(i, j), z)).tocsc()


def rate(alpha, kelvin):
    k1, k2 = A1 * np.exp(-E / (R * kelvin)), A2 * np.exp(-E / (R * kelvin))
    x = (kelvin + SHIFT - TG0) / (TG1 - TG0)
    glassy = x / (LAMBDA + (1 - LAMBDA) * x)
    slow = 1 / (1 + np.exp(np.clip(SHARP * (alpha - glassy), -500, 500)))
    return slow * (k1 + k2 * np.maximum(alpha, 0)) * np.maximum(1 - alpha, 0) ** 2


def middle(values, n):
    """Along z in the middle of the plan, from values in all cells."""
    v = values.reshape(n)
    even = lambda a: (9 * a[0] - a[1]) / 8  # through half and one and a half cells from the middle
    return even(even(v))


def highest(column):
    i = min(max(int(np.argmax(column)), 1), len(column) - 2)
    a, b, c = column[i - 1 : i + 2]
    bend = a - 2 * b + c
    s = np.clip(-(c - a) / 2 / bend, -1, 1) if bend < 0 else 0.0
    return max(b + s * (c - a) / 2 + s * s * bend / 2, column.max())


def solve(n, case):
    name, *_, room, start, hs, hw, limit, hours = case
    room, start, limit = room + 273.15, start + 273.15, limit + 273.15
    cells, conduct, rise = math.prod(n), operator(n, case), HEAT / CP

    def derivative(_, y):
        r = rate(y[:cells], y[cells:] + room)
        return np.r_[r, conduct @ y[cells:] + rise * r]

    def jacobian(_, y):
        a, t = y[:cells], y[cells:] + room
        da = diags((rate(a + 1e-7, t) - rate(a - 1e-7, t)) / 2e-7)
        dt = diags((rate(a, t + 1e-4) - rate(a, t - 1e-4)) / 2e-4)
        return bmat([[da, dt], [rise * da, rise * dt + conduct]]).tocsc()

    hot = lambda y: highest(middle(y[cells:], n)) + room
    s = solve_ivp(derivative, (0, hours * 3600), np.r_[np.zeros(cells), np.full(cells, start - room)], "BDF",
                  jac=jacobian, rtol=1e-5, atol=np.r_[np.full(cells, 1e-7), np.full(cells, 1e-4)], first_step=1.0)
    if s.status != 0:
        raise SystemExit(f"{name}: {s.message}")
    warm = CubicSpline(s.t, [hot(y) - limit for y in s.y.T])
    gelled = CubicSpline(s.t, [highest(middle(y[:cells], n)) - GEL for y in s.y.T])
    first = lambda f: next((float(t) for t in f.roots(extrapolate=False)), None)
    dense = np.linspace(0, s.t[-1], 20001)
    return {"limit_s": first(warm), "gel_s": first(gelled), "peak_K": float(warm(dense).max()) + limit}


def extrapolated(coarse, fine, ratio):
    w = 1 / (ratio**2 - 1)
    return {k: None if fine[k] is None or coarse[k] is None else fine[k] + w * (fine[k] - coarse[k]) for k in fine}


def apart(a, b, name):
    for k in a:
        if (a[k] is None) != (b[k] is None):
            yield f"{name}: {k} is {a[k]} on one grid, {b[k]} on the other"
        elif a[k] is not None and not abs(a[k] - b[k]) <= ((1 if b[k] < 473.15 else 10) if k == "peak_K" else 1.5e-3 * b[k]):
            yield f"{name}: {k} is {a[k]:.6g} on few cells, {b[k]:.6g} on more"


def main():
    if sys.argv[1:] not in ([], ["--check"]):
        raise SystemExit("usage: tray.py [--check]")
    path, checking = HERE / "tray_results.json", bool(sys.argv[1:])
    stored = {r["name"]: r for r in json.loads(path.read_text())} if checking else {}
    wrong, results = [], []
    for case in CASES:
        grids = [solve(n, case) for n in (N[:2] if checking else N)]
        few = extrapolated(grids[0], grids[1], N[1][0] / N[0][0])
        want = stored.get(case[0]) if checking else extrapolated(grids[1], grids[2], N[2][0] / N[1][0])
        if want is None:
            wrong.append(f"{case[0]} is not stored: run ./tray.py")
            continue
        wrong += apart(few, {k: want[k] for k in few}, case[0])
        name, length, width, depth, room, start, hs, hw, limit, hours = case
        results.append({"name": name, "length_m": length / 1e3, "width_m": width / 1e3, "depth_m": depth / 1e3,
                        "room_K": room + 273.15, "start_K": start + 273.15, "surface_loss_W_per_m2_K": hs,
                        "wall_loss_W_per_m2_K": hw, "limit_K": limit + 273.15, "duration_s": hours * 3600, **want,
                        "grids": grids})
    if wrong:
        print("\n".join(wrong), file=sys.stderr)
        raise SystemExit(1)
    if not checking:
        path.write_text(json.dumps(results, indent=1) + "\n")
    print(f"{len(results)} trays in three dimensions {'as stored' if checking else 'written'}")


if __name__ == "__main__":
    main()
