#!/usr/bin/env python3
"""Whole documents against an independent program: this one.

It shares nothing with Spadework but the garden's figures. The sun is the Astronomical Almanac's low
precision formulas (good to 0.01 degrees); shadows are found by marching along the ray in small steps and
asking of each point whether it lies inside the roof, the crown or the board, by its definition. Hours are
compared on the stretches in which an empty garden has sun, so that refraction and haze drop out.
Tolerance: 0.04 h (the sun moves its own width in 2 minutes; steps of half a minute).
"""
import json
import math
import pathlib
import subprocess
import sys
import tempfile

BINARY = str(pathlib.Path(sys.argv[2]).resolve())
STEP_H = 1 / 120


def sun(latitude, longitude, day, hour_utc):
    """Elevation and azimuth, radians."""
    year, month, date = day
    julian = 367 * year - 7 * (year + (month + 9) // 12) // 4 + 275 * month // 9 + date + 1721013.5 + hour_utc / 24
    n = julian - 2451545.0
    mean, anomaly = math.radians((280.460 + 0.9856474 * n) % 360), math.radians((357.528 + 0.9856003 * n) % 360)
    ecliptic = mean + math.radians(1.915) * math.sin(anomaly) + math.radians(0.020) * math.sin(2 * anomaly)
    tilt = math.radians(23.439 - 4e-7 * n)
    ascension = math.atan2(math.cos(tilt) * math.sin(ecliptic), math.cos(ecliptic))
    declination = math.asin(math.sin(tilt) * math.sin(ecliptic))
    sidereal = (6.697375 + 0.0657098242 * n + hour_utc) % 24
    hour_angle, phi = math.radians(sidereal * 15 + longitude) - ascension, math.radians(latitude)
    elevation = math.asin(math.sin(phi) * math.sin(declination)
                          + math.cos(phi) * math.cos(declination) * math.cos(hour_angle))
    azimuth = math.atan2(-math.sin(hour_angle),
                         math.tan(declination) * math.cos(phi) - math.sin(phi) * math.cos(hour_angle))
    degrees = math.degrees(elevation)
    return elevation + math.radians(1.02 / math.tan(math.radians(degrees + 10.3 / (degrees + 5.11))) / 60), azimuth


def march(start, beam, inside, far, steps):
    return any(inside(*(start[i] + beam[i] * far * k / steps for i in range(3))) for k in range(1, steps))


def depth_per_m(through, across):
    """The x of 2 (1 - (1 + x) e^-x) / x^2 = through, over the width."""
    low, high = 1e-6, 1000.0
    for _ in range(200):
        x = (low + high) / 2
        low, high = (x, high) if 2 * (1 - (1 + x) * math.exp(-x)) / (x * x) > through else (low, x)
    return low / across


def sunny(folder, site, things, at, day):
    latitude, longitude, north = site
    document = pathlib.Path(folder) / "garden.toml"
    document.write_text(f'format = 1\n[garden]\ntitle = "By hand"\nlatitude_deg = {latitude}\n'
                        f'longitude_deg = {longitude}\nelevation_m = 0\ntime_zone = "UTC"\nplan_north_deg = {north}\n{things}')
    answer = subprocess.run([BINARY, "light", str(document), "--json", "--day", "%04d-%02d-%02d" % day,
                             "--at", ",".join(str(v) for v in at)], capture_output=True, text=True, check=True)
    return json.loads(answer.stdout)


def hours(text):
    h, m, s = text.split(":")
    return int(h) + int(m) / 60 + int(s) / 3600


BOX = "outline = [[1,-6],[6,-6],[6,-2],[1,-2]]\neaves_m = 2.4\nridge_m = 4.2\n"
SPOT = (0, 0, 0.3)


def house(roof):
    return lambda beam: march(SPOT, beam, lambda x, y, z: 1 < x < 6 and -6 < y < -2 and z < roof(x, y), 24, 2400)


def crown(shape):
    k = depth_per_m(0.26, 3.5)  # the catalogue's medlar

    def blocked(beam):
        chord, steps, far = 0.0, 1500, 12
        for i in range(steps):
            t = far * (i + 0.5) / steps
            x, y, z = beam[0] * t - 1, beam[1] * t + 2, 0.5 + beam[2] * t
            r = math.hypot(x, y)
            if r < 0.05 and z < 3.25:
                return True
            u = (z - 1.5) / 3.5
            if 0 < u < 1 and {"round": r * r / 5.29 + (2 * u - 1) ** 2 < 1, "column": r < 2.3,
                              "cone": r < 2.3 * (1 - u), "spreading": r * r / 5.29 + u * u < 1}[shape]:
                chord += far / steps
        return chord * k > math.log(2)
    return blocked


def seat(x, y, z):
    front, side = (x + y) / math.sqrt(2), (x - y) / math.sqrt(2)
    roof = 2.1 < z < 2.15 and abs(side) < 1.3 and abs(front) < 0.8
    walls = z < 2.1 and (abs(front + 0.5) < 0.015 and abs(side) < 1
                         or abs(abs(side) - 1) < 0.015 and abs(front) < 0.5)
    return roof or walls


def slope_z(y):
    return (y + 20) * 0.2


def on_slope(beam):
    start = (0, 0, slope_z(0) + 0.001)
    wall = lambda x, y, z: abs(x - 2) < 0.1 and abs(y) < 8 and z < slope_z(y) + 1.5
    return beam[2] < 0.2 * beam[1] or march(start, beam, wall, 24, 3000)


TREE = '[[tree]]\nid = "t"\nkind = "medlar"\nat = [1,-2]\nheight_m = 5\ncrown_base_m = 1.5\n' \
       'crown_width_m = 4.6\nstem_m = 0.1\nshape = "%s"\n'
NORTH, SOUTH = (48.41, -4.36, 0), (-43.0, 170.0, 0)
APRIL, JUNE = (2026, 4, 12), (2026, 6, 20)
CASES = [
    ("gable on a turned page", (48.41, -4.36, 340), '[[building]]\nid = "b"\n' + BOX + 'roof = "gable"\n', SPOT, APRIL,
     house(lambda x, y: 4.2 - 1.8 * abs(y + 4) / 2)),
    ("gable, its ridge to the north", NORTH, '[[building]]\nid = "b"\n' + BOX + 'roof = "gable"\nridge_deg = 0\n',
     SPOT, APRIL, house(lambda x, y: 4.2 - 1.8 * abs(x - 3.5) / 2.5)),
    ("hip", (48.41, -4.36, 340), '[[building]]\nid = "b"\n' + BOX + 'roof = "hip"\n', SPOT, APRIL,
     house(lambda x, y: 2.4 + 0.9 * min(x - 1, 6 - x, y + 6, -2 - y))),
    ("mono", NORTH, '[[building]]\nid = "b"\n' + BOX + 'roof = "mono"\nhigh_side = "east"\n', SPOT, APRIL,
     house(lambda x, y: 2.4 + 1.8 * (x - 1) / 5)),
    ("mono in the south", SOUTH, '[[building]]\nid = "b"\n' + BOX.replace("-6", "2").replace("-2", "6")
     + 'roof = "mono"\nhigh_side = "east"\n', SPOT, (2026, 6, 10),
     lambda beam: march(SPOT, beam, lambda x, y, z: 1 < x < 6 and 2 < y < 6 and z < 2.4 + 1.8 * (x - 1) / 5, 24, 2400)),
    *[(f"crown, {shape}", NORTH, TREE % shape, (0, 0, 0.5), JUNE, crown(shape))
      for shape in ("round", "column", "cone", "spreading")],
    ("seat with a roof and solid sides", NORTH,
     '[[seat]]\nid = "s"\nat = [0,0]\nfacing = [5,5]\nsize = [2,1]\nroof = { height_m = 2.1, overhang_m = 0.3 }\n'
     'sides = "solid"\n', (0, 0, 1.2), JUNE, lambda beam: march((0, 0, 1.2), beam, seat, 5, 2500)),
    ("wall that follows a slope", NORTH,
     '[ground]\nspots = [[-20,-20,0],[20,-20,0],[20,20,8],[-20,20,8]]\n[[wall]]\nid = "w"\nline = [[2,-8],[2,8]]\n'
     'height_m = 1.5\nkind = "brick"\nthickness_m = 0.2\n', (0, 0, 0), APRIL, on_slope),
]

wrong = 0
with tempfile.TemporaryDirectory() as folder:
    for name, site, things, at, day, blocked in CASES:
        open_day, told = sunny(folder, site, "", at, day), sunny(folder, site, things, at, day)
        found = 0.0
        for start, end in open_day["intervals"]:
            hour = hours(start) + STEP_H / 2
            while hour < hours(end):
                elevation, azimuth = sun(site[0], site[1], day, hour)
                turn = azimuth - math.radians(site[2])
                beam = (math.cos(elevation) * math.sin(turn), math.cos(elevation) * math.cos(turn), math.sin(elevation))
                if not blocked(beam):
                    found += STEP_H
                hour += STEP_H
        off = abs(found - told["sun_h"])
        wrong += off > 0.04
        print(f"{name}: {told['sun_h']:.3f} h, by hand {found:.3f} h{'' if off <= 0.04 else '  <- differs'}")
sys.exit(1 if wrong else 0)
