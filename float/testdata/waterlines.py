"""Makes waterlines.json: where floats on arms lie in fuel, by a general-purpose
root finder, from the torque balance about the axle. To run it again:

    python3 waterlines.py        (with scipy; made with the version it records)

Immersed volumes are integrated numerically from the float's sections, which the
program under test does not do.
"""
import json
import math
import scipy
from scipy.integrate import quad
from scipy.optimize import brentq

G = 9.80665


def chord(r, s):
    return 2 * math.sqrt(max(0.0, r * r - s * s))


def sphere(d, w):
    """Volume of a ball of diameter d below height w over its centre."""
    r = d / 2
    return quad(lambda z: math.pi * max(0.0, r * r - z * z), -r, max(-r, min(r, w)), epsabs=1e-10, epsrel=1e-12)[0]


def cylinder(d, length, w, lean):
    """Volume of a cylinder, its axis leaning by lean radians from the level, below
    a level plane w over its centre: sections along the axis."""
    r = d / 2

    def section(x):
        s = (w - x * math.sin(lean)) / math.cos(lean)
        k = max(-1.0, min(1.0, s / r))
        return r * r * (math.acos(-k) + k * math.sqrt(1 - k * k))

    kinks = []
    if abs(math.sin(lean)) > 1e-12:
        for s in (-r, r):
            x = (w - s * math.cos(lean)) / math.sin(lean)
            if abs(x) < length / 2:
                kinks.append(x)
    return quad(section, -length / 2, length / 2, points=kinks or None, epsabs=1e-9, epsrel=1e-12, limit=200)[0]


def waterline(volume, lo, hi, mass, arm, torque, lever, density, sense):
    """Height of the surface over the float centre at which the moments about the
    axle balance: weight of float and half the arm, buoyancy, friction."""
    def moment(w):
        up = volume(w) * 1e-9 * density * G * lever * 1e-3          # N m
        down = (mass + arm / 2) * 1e-3 * G * lever * 1e-3
        return up - down - sense * torque * 1e-3

    return brentq(moment, lo, hi, xtol=1e-13, rtol=1e-15)


cases = []
for shape, d, length, mass, arm_mass, torque in [
        ("sphere", 45, 0, 14, 9, 0.6), ("sphere", 60, 0, 40, 0, 2.5), ("sphere", 38, 0, 5, 6, 0),
        ("cylinder", 40, 50, 14, 9, 0.6), ("cylinder", 44, 56, 22, 12, 0.8), ("cylinder", 60, 30, 30, 4, 3)]:
    for angle, nose, left in [(-40, 0, 0), (5, 0, 0), (-20, 8, -5), (10, -12, 15)]:
        for sense in (-1, 0, 1):
            arm, density = 210, 745 if length else 835
            a, b, t = math.radians(nose), math.radians(left), math.radians(angle)
            n = (math.sin(a), math.cos(a) * math.sin(b), math.cos(a) * math.cos(b))
            # an arm that points forward: d(n . C)/dt
            lever = arm * abs(-math.sin(t) * n[0] + math.cos(t) * n[2])
            lean = math.asin(n[1])  # of the axle, which points left
            if shape == "sphere":
                volume, reach = (lambda w: sphere(d, w)), d / 2
            else:
                volume, reach = (lambda w: cylinder(d, length, w, lean)), math.hypot(d, length) / 2
            w = waterline(volume, -reach, reach, mass, arm_mass, torque, lever, density, sense)
            height = n[0] * arm * math.cos(t) + n[2] * arm * math.sin(t)
            cases.append(dict(shape=shape, diameter=d, length=length, mass=mass, arm_mass=arm_mass, friction=torque, arm=arm,
                              density=density, angle=angle, nose_up=nose, left_up=left, sense=sense, level=height + w))

json.dump(dict(solver="scipy %s, brentq and quad" % scipy.__version__, cases=cases), open("waterlines.json", "w"), indent=1)
