#!/usr/bin/python3
"""A resin bath that a drum stirs while the tow runs, and that stands still when the tow stops.

    ./stand.py           solve the cases below, write stand_results.json
    ./stand.py --check   solve them again on fewer cells, compare with stand_results.json; exit 1 if they differ

While the tow runs the bath is one temperature T and one degree of cure alpha in a falling mass m:

    m cp dT/dt = m H dalpha/dt - (h_s A + h_w (A + P d) + m_f c_f) (T - T_room)      dm/dt = -draw      d = m/(rho A)

From the stop on it is a slab that begins with that T and alpha, by finite volumes of equal size through its depth d:

    rho cp dT/dt = k T_zz + rho H dalpha/dt       what leaves a face: h (T - T_room), h_s on top, h_w at the floor

Resin: epoxy-ipda of the catalogue, its constants written out below. BDF of scipy, dense Jacobian by differences.
Nothing is in common with the Go code but the equations. "Hottest" is the top of the parabola through the hottest
cell and its neighbours. Results: mass, T and alpha at the stop, and for how long from then on the hottest place stays
below limit_K, from N[1] and N[2] cells by Richardson's rule of second order. A case fails when what N[0] and N[1]
cells say differs from that by more than 2e-4 of the time.
"""
import json
import pathlib
import sys

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

R = 8.314462618
A1, A2, E, HEAT = 9.065e4, 9.065e5, 56e3, 430e3  # 1/s, J/mol, J/kg
SHIFT, SHARP, TG0, TG1, LAMBDA = 10.0, 60.0, 238.15, 393.15, 0.36
RHO, CP, K = 1110.0, 2200.0, 0.20
FIBRE = 750.0  # J/(kg K)
N = (16, 24, 36)
HERE = pathlib.Path(__file__).resolve().parent

# name, length and width in mm, kg at first, room and resin in °C, h on top and at floor and walls, minutes wound,
# resin drawn and fibre run in g/min, limit in °C
CASES = [
    ("usual-15mm", 300, 120, 0.75, 23, 23, 10, 6, 30, 3.5, 6, 40),
    ("usual-12mm-cool-resin", 300, 120, 0.50, 23, 20, 10, 6, 40, 3.0, 5, 40),
    ("shallow-6mm-warm-room", 300, 120, 0.30, 29, 27, 10, 6, 20, 2.0, 4, 38),
    ("deep-25mm", 300, 120, 1.10, 23, 22, 10, 6, 25, 3.0, 5, 40),
    ("large-20mm", 450, 220, 2.40, 20, 19, 10, 6, 60, 9.0, 20, 40),
    ("hot-room-alone", 300, 120, 0.60, 28, 25, 10, 6, 15, 3.5, 6, 40),
    ("on-wood-fan", 300, 120, 0.70, 25, 25, 20, 4.5, 35, 3.5, 6, 40),
    ("begun-warm", 300, 120, 0.70, 22, 29, 10, 6, 10, 3.5, 6, 40),
]


def rate(alpha, kelvin):
    k1, k2 = A1 * np.exp(-E / (R * kelvin)), A2 * np.exp(-E / (R * kelvin))
    x = (kelvin + SHIFT - TG0) / (TG1 - TG0)
    glassy = x / (LAMBDA + (1 - LAMBDA) * x)
    slow = 1 / (1 + np.exp(np.clip(SHARP * (alpha - glassy), -500, 500)))
    return slow * (k1 + k2 * np.maximum(alpha, 0)) * np.maximum(1 - alpha, 0) ** 2


def wound(case):
    """The bath when the tow stops: mass, alpha, T."""
    _, length, width, mass, room, start, hs, hw, minutes, draw, fibre, _ = case
    area, rim = length * width / 1e6, 2 * (length + width) / 1e3
    draw, tow, room = draw / 6e4, fibre / 6e4 * FIBRE, room + 273.15

    def derivative(t, y):
        m = mass - draw * t
        loss = hs * area + hw * (area + rim * m / (RHO * area)) + tow
        r = rate(y[0], y[1])
        return [r, HEAT / CP * r - loss * (y[1] - room) / (m * CP)]

    s = solve_ivp(derivative, (0, minutes * 60), [0, start + 273.15], "DOP853", rtol=1e-10, atol=1e-10)
    return mass - draw * minutes * 60, s.y[0, -1], s.y[1, -1]


def highest(column):
    i = min(max(int(np.argmax(column)), 1), len(column) - 2)
    a, b, c = column[i - 1 : i + 2]
    bend = a - 2 * b + c
    s = np.clip(-(c - a) / 2 / bend, -1, 1) if bend < 0 else 0.0
    return max(b + s * (c - a) / 2 + s * s * bend / 2, column.max())


def left(n, case, mass, alpha, kelvin):
    """For how long the hottest place stays below the limit."""
    _, length, width, _, room, _, hs, hw, _, _, _, limit = case
    depth = mass / (RHO * length * width / 1e6)
    room, limit, size = room + 273.15, limit + 273.15, depth / n
    faces = [1 / (size / 2 / K + 1 / h) for h in (hw, hs)]

    def derivative(_, y):
        a, t = y[:n], y[n:]
        flow = np.r_[faces[0] * (room - t[0]), K / size * (t[:-1] - t[1:]), faces[1] * (t[-1] - room)]
        r = rate(a, t)
        return np.r_[r, HEAT / CP * r + (flow[:-1] - flow[1:]) / (RHO * CP * size)]

    reached = lambda _, y: highest(y[n:]) - limit
    reached.terminal, reached.direction = True, 1
    s = solve_ivp(derivative, (0, 6 * 3600), np.r_[np.full(n, alpha), np.full(n, kelvin)], "BDF", events=reached,
                  rtol=1e-8, atol=np.r_[np.full(n, 1e-10), np.full(n, 1e-7)], dense_output=True)
    if not s.t_events[0].size:
        raise SystemExit(f"{case[0]}: the limit is not reached")
    return float(brentq(lambda t: highest(s.sol(t)[n:]) - limit, s.t[-2], s.t[-1], xtol=1e-6)) \
        if highest(s.sol(s.t[-2])[n:]) < limit < highest(s.sol(s.t[-1])[n:]) else float(s.t_events[0][0])


def extrapolated(coarse, fine, ratio):
    return fine + (fine - coarse) / (ratio**2 - 1)


def solve(case, check):
    names = ("name", "length_m", "width_m", "filled_kg", "room_K", "start_K", "surface_loss_W_per_m2_K",
             "wall_loss_W_per_m2_K", "wound_s", "draw_kg_per_s", "fibre_kg_per_s", "limit_K")
    scale = (None, 1e-3, 1e-3, 1, 1, 1, 1, 1, 60, 1 / 6e4, 1 / 6e4, 1)
    shift = {"room_K": 273.15, "start_K": 273.15, "limit_K": 273.15}
    row = {k: v if s is None else v * s + shift.get(k, 0) for k, v, s in zip(names, case, scale)}
    mass, alpha, kelvin = wound(case)
    row |= {"mass_kg": mass, "alpha": alpha, "kelvin": kelvin}
    times = [left(n, case, mass, alpha, kelvin) for n in (N[:2] if check else N)]
    row["coarse_s"] = extrapolated(times[0], times[1], N[1] / N[0])
    if not check:
        row["left_s"] = extrapolated(times[1], times[2], N[2] / N[1])
    return row


def main():
    check, file = sys.argv[1:] == ["--check"], HERE / "stand_results.json"
    rows = [solve(case, check) for case in CASES]
    if not check:
        file.write_text(json.dumps(rows, indent=1) + "\n")
    known = json.loads(file.read_text())
    bad = [r["name"] for r, k in zip(rows, known, strict=True)
           if abs(r["coarse_s"] / k["left_s"] - 1) > 2e-4 or abs(r["kelvin"] - k["kelvin"]) > 1e-5]
    for r, k in zip(rows, known):
        print(f'{r["name"]:24} {k["mass_kg"]:.3f} kg at {k["kelvin"] - 273.15:.2f} °C: {k["left_s"] / 60:.2f} min, on fewer cells {r["coarse_s"] / k["left_s"] - 1:+.1e}')
    if bad:
        raise SystemExit("these differ: " + ", ".join(bad))


main()
