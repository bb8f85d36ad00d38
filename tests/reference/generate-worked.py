#!/usr/bin/python3
"""Figures of tests/cli/test-worked.c, computed without the program.

One design (tests/cli/worked.downcomer) with some of its fields changed is worked from its XML alone: duty flow, head over
the crest, drain capacities, drain-back, free volume, turnover, levels of the chambers. Relations and their sources:

  friction        exact Colebrook-White, fluids.friction.Colebrook; laminar 64/Re
  water           density: gsw (TEOS-10); viscosity: Sharqawy, Lienhard and Zubair 2010, equations 22 and 23
  bores           ASTM D1785 and EN ISO 1452-2, outside less two minimum walls
  fittings        Crane TP-410: n f_T (elbow 30, gate valve 8, ball valve 3, tee through its branch 60), entrances 0.5 and
                  0.78, exit 1; union 0.08, bulkhead 0.1, slotted strainer 1.5: common practice, no source
  nozzle          H = (Q/(C A))^2/2g, C = 0.95 (common practice)
  comb            orifice strips, C = 0.60 (common practice); plate: Hager and Schwalt 1994
  sharp crest     Kindsvater-Carter over the full width (ISO 1438), beside it as a second opinion
  drain, unprimed EPA SWMM reference manual II, bottom orifice: 0.414 sqrt(2g) pi D h^1.5 to h = 0.362 D, then 0.6 A sqrt(2gh)
  drain, primed   energy balance from box to sump surface or free end
  pump            monotone cubic (scipy PchipInterpolator) through the points, affinity laws

Run: /usr/bin/python3 generate-worked.py (Debian: python3-fluids, python3-gsw, python3-scipy); prints the rows of the table.
"""
import math
import os
import xml.etree.ElementTree as ET

import gsw
from fluids.friction import Colebrook
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq

G = 9.80665
HERE = os.path.dirname(os.path.abspath(__file__))
# bore (m) and Crane's f_T of its nominal size
PIPES = {
    "sch40-3/4": (0.02667 - 2 * 0.0028702, 0.025),
    "sch40-1": (0.033401 - 2 * 0.0033782, 0.023),
    "sch40-1-1/2": (0.04826 - 2 * 0.003683, 0.021),
    "metric-25": (0.025 - 2 * 0.0019, 0.025),
    "metric-40": (0.040 - 2 * 0.0030, 0.022),
}
CRANE = {"gate-valve": 8, "ball-valve": 3}
FIXED = {"union": 0.08, "bulkhead": 0.1}
ENTRY = {"flush": 0.5, "projecting": 0.78, "strainer": 1.5}
TRICKLE_SHARE = 0.03  # of the duty flow, 2 to 5 %: common practice

CASES = [
    ("as-drawn", []),
    ("slow", ["return-pump.speed=0.8"]),
    ("full-speed", ["return-pump.speed=1"]),
    ("narrow-riser", ["rise.size=sch40-3/4"]),
    ("metric-riser", ["rise.size=metric-40"]),
    ("low-crest", ["overflow.crest=0.55"]),
    ("no-break", ["left-outlet.siphon-break=no", "right-outlet.siphon-break=no"]),
    ("cold-fresh-water", ["room.water-temperature=10", "room.salinity=0"]),
    ("wide-siphon", ["siphon.size=sch40-1-1/2", "siphon.end=0.3", "trickle.size=metric-25"]),
    ("free-outlets", ["left-outlet.kind=free", "right-outlet.kind=free", "left-outlet.height=0.62",
                      "right-outlet.height=0.62"]),
    ("plain-crest", ["overflow.weir=plain", "overflow.length=0.6", "stand.height=0.8"]),
    ("wide-emergency", ["emergency.size=metric-40", "emergency.mouth=0.54"]),
]


class Design:
    """Fields of the XML by path, parts in file order, and the geometry that follows from them."""

    def __init__(self, changes):
        self.parts, self.values = [], {}
        for element in ET.parse(os.path.join(HERE, "..", "cli", "worked.downcomer")).getroot()[0]:
            key = element.get("key")
            self.parts.append((element.tag.split("}")[1], key, element.get("of")))
            for field in element:
                self.values[key + "." + field.tag.split("}")[1]] = field.text
        for change in changes:
            path, value = change.split("=")
            self.values[path] = value
        self.top = self.n("stand.floor") + self.n("stand.height") + self.n("stand.top")
        self.sump_floor = self.n("stand.floor") + self.n("sump.bottom")
        glass = self.n("tank.glass")
        self.tank = (self.n("tank.x") + glass, self.n("tank.y") + glass)
        self.length, self.width = self.n("tank.length") - 2 * glass, self.n("tank.width") - 2 * glass
        self.crest = self.top + self.n("overflow.crest")
        self.rim = self.top + min(self.n("tank.rim"), self.n("overflow.box-rim"))

    def n(self, path):
        return float(self.values[path])

    def t(self, path):
        return self.values[path]

    def kids(self, kind, owner=None):
        return [k for a, k, o in self.parts if a == kind and owner in (None, o)]

    def owner(self, key):
        return next(o for _, k, o in self.parts if k == key)

    def chambers(self):
        """(key, plan area), from the left, and the baffles between them."""
        baffles = self.kids("baffle")
        inside = self.n("sump.length") - 2 * self.n("sump.glass")
        width = self.n("sump.width") - 2 * self.n("sump.glass")
        lefts = [0] + [self.n(b + ".x") + self.n(b + ".thickness") for b in baffles]
        rights = [self.n(b + ".x") for b in baffles] + [inside]
        return [(c, (r - l) * width) for c, l, r in zip(self.kids("chamber"), lefts, rights)], baffles, lefts, width

    def polyline(self, run):
        if run in self.kids("drain"):
            box_y = self.tank[1] + self.width - self.n("overflow.box-width")
            points = [(self.tank[0] + self.n("overflow.x") + self.n(run + ".x"), box_y + self.n(run + ".y"),
                       self.top + self.n(run + ".mouth"))]
        elif self.owner(run) == "split":
            points = [self.polyline("rise")[-1]]
        else:
            _, _, lefts, width = self.chambers()
            glass = self.n("sump.glass")
            points = [(self.n("sump.x") + glass + lefts[-1] + self.n("return-pump.x") +
                       self.n("return-pump.body-length") / 2, self.n("sump.y") + glass + width / 2,
                       self.sump_floor + self.n("return-pump.outlet-height"))]
        ends = [] if run in self.kids("drain") else [self.t(run + ".to")]
        for corner in self.kids("corner", run) + [e for e in ends if e == "split"]:
            points.append(tuple(float(self.values.get(corner + "." + axis, points[-1][i]))
                                for i, axis in enumerate("xyz")))
        if run in self.kids("drain"):
            points.append(points[-1][:2] + (self.sump_floor + self.n(run + ".end"),))
        elif ends[0] != "split":
            points.append((self.tank[0] + self.n(ends[0] + ".x"), self.tank[1] + self.n(ends[0] + ".y"),
                           self.top + self.n(ends[0] + ".height")))
        return points

    def pipe(self, run):
        """Bore, f_T, length, and K of bends and fittings; every bend of this design is a square one."""
        bore, rough = PIPES[self.t(run + ".size")]
        points = self.polyline(run)
        k = 30 * rough * (len(points) - 2)
        for fitting in self.kids("fitting", run):
            kind = self.t(fitting + ".type")
            k += CRANE[kind] * rough if kind in CRANE else FIXED[kind]
        return bore, rough, sum(math.dist(a, b) for a, b in zip(points, points[1:])), k

    def content(self, run, above):
        """Water in the pipe above a level."""
        points, share = self.polyline(run), 0
        for a, b in zip(points, points[1:]):
            low, high = min(a[2], b[2]), max(a[2], b[2])
            part = 1 if low >= above else 0 if high <= above else (high - above) / (high - low)
            share += part * math.dist(a, b)
        return share * math.pi / 4 * self.pipe(run)[0] ** 2


def viscosity_and_density(celsius, salinity):
    density = gsw.rho(salinity * 35.16504 / 35, gsw.CT_from_t(salinity * 35.16504 / 35, celsius, 0), 0)
    pure = 4.2844e-5 + 1 / (0.157 * (celsius + 64.993) ** 2 - 91.296)
    a = 1.541 + 1.998e-2 * celsius - 9.52e-5 * celsius ** 2
    b = 7.974 - 7.561e-2 * celsius + 4.724e-4 * celsius ** 2
    s = salinity / 1000
    return pure * (1 + a * s + b * s * s) / density


def loss(flow, bore, length, k, roughness, nu):
    velocity = flow / (math.pi / 4 * bore ** 2)
    reynolds = velocity * bore / nu
    friction = 64 / max(reynolds, 1e-9) if reynolds < 2000 else Colebrook(reynolds, roughness / bore)
    return (friction * length / bore + k) * velocity ** 2 / (2 * G)


def crest_head(d, flow):
    if d.t("overflow.weir") == "toothed":
        gap, tooth, high = d.n("overflow.gap"), d.n("overflow.tooth"), d.n("overflow.tooth-height")
        open_m = gap * math.floor((d.n("overflow.length") + tooth) / (gap + tooth))

        def over(h):
            beyond = max(h - high, 0) ** 1.5
            return 2 / 3 * 0.6 * math.sqrt(2 * G) * (open_m * (h ** 1.5 - beyond) + d.n("overflow.length") * beyond)
    else:
        open_m = d.n("overflow.length")

        def over(h):
            return 0.42 * math.sqrt(2 * G) * open_m * h ** 1.5 * (1 - (2 / 9) / (1 + (h / d.n("overflow.wall")) ** 4))
    return brentq(lambda h: over(h) - flow, 1e-9, 0.5), sharp_head(flow, open_m, d.n("overflow.crest") - d.n("tank.bottom"))


def sharp_head(flow, length, height):
    return brentq(lambda h: 2 / 3 * (0.602 + 0.075 * h / height) * math.sqrt(2 * G) * (length - 0.0009) *
                  (h + 0.001) ** 1.5 - flow, -0.001, 0.5)


def duty(d, nu, sump_level):
    points = [tuple(map(float, p.split(":"))) for p in d.t("return-pump.curve").split()]
    curve = PchipInterpolator(*zip(*points))
    speed = d.n("return-pump.speed")

    def branch_needs(run, flow, surface):
        bore, rough, length, k = d.pipe(run)
        outlet = d.t(run + ".to")
        level = surface if d.t(outlet + ".kind") == "submerged" else d.top + d.n(outlet + ".height")
        jet = flow / (0.95 * math.pi / 4 * d.n(outlet + ".bore") ** 2)
        # A riser that meets two arms: each arm has the loss of a tee through its branch, Crane 60 f_T.
        return level + jet ** 2 / (2 * G) + loss(flow, bore, length, k + 60 * rough, d.n(run + ".roughness"), nu)

    def too_much(flow):
        surface = d.crest + crest_head(d, flow)[0]
        head = sump_level + speed ** 2 * float(curve(flow / speed))
        bore, _, length, k = d.pipe("rise")
        head -= loss(flow, bore, length, k, d.n("rise.roughness"), nu)
        arms = 0
        for run in ("left-run", "right-run"):
            if branch_needs(run, 1e-9, surface) < head:
                arms += brentq(lambda q: branch_needs(run, q, surface) - head, 1e-9, 0.01)
        return flow - arms

    return brentq(too_much, 1e-5, speed * points[-1][0])


def chamber_levels(d, flow):
    chambers, baffles, _, width = d.chambers()
    levels = {chambers[-1][0]: d.n(chambers[-1][0] + ".running-level")}
    level = levels[chambers[-1][0]]
    for (chamber, _), baffle in list(zip(chambers, baffles))[::-1]:
        if d.t(baffle + ".kind") == "over":
            level = max(level, d.n(baffle + ".height") + sharp_head(flow, width, d.n(baffle + ".height")))
        else:
            level += (flow / (0.6 * width * d.n(baffle + ".gap"))) ** 2 / (2 * G)
        levels[chamber] = level
    return levels


def unprimed(bore, head):
    if head <= 0:
        return 0
    if head <= 0.362 * bore:
        return 0.414 * math.sqrt(2 * G) * math.pi * bore * head ** 1.5
    return 0.6 * math.pi / 4 * bore ** 2 * math.sqrt(2 * G * head)


def primed(d, drain, box, levels, nu):
    bore, _, length, k = d.pipe(drain)
    k += ENTRY[d.t(drain + ".entry")] + 1
    end = d.sump_floor + max(d.n(drain + ".end"), levels[d.t(drain + ".to")])
    return brentq(lambda q: loss(q, bore, length, k, d.n(drain + ".roughness"), nu) - (box - end), 1e-7, 0.05)


def work(changes):
    d = Design(changes)
    nu = viscosity_and_density(d.n("room.water-temperature"), d.n("room.salinity"))
    chambers = d.chambers()[0]
    sump_level = d.sump_floor + d.n("pumping.running-level")
    flow = duty(d, nu, sump_level)
    head, sharp = crest_head(d, flow)
    levels = chamber_levels(d, flow)
    mouths = {drain: d.top + d.n(drain + ".mouth") for drain in d.kids("drain")}
    bores = {drain: d.pipe(drain)[0] for drain in mouths}
    # The trickle channel takes its share over its lip: that is where the box stands.
    lip = (TRICKLE_SHARE * flow / (0.414 * math.sqrt(2 * G) * math.pi * bores["trickle"])) ** (2 / 3)
    box = mouths["trickle"] + lip
    siphon = primed(d, "siphon", box, levels, nu)
    trickle = primed(d, "trickle", box, levels, nu)
    blocked = unprimed(bores["emergency"], d.rim - mouths["emergency"])
    # Drain-back: a slice of the display, the box, the return pipes and the full siphon.
    stops = d.crest
    for outlet in d.kids("outlet"):
        if d.t(outlet + ".kind") == "submerged":
            stops = min(stops, d.top + (d.n(outlet + ".break-height") if d.t(outlet + ".siphon-break") == "yes"
                                        else d.n(outlet + ".height") + d.n(outlet + ".bore") / 2))
    wall, box_area = d.n("overflow.wall"), d.n("overflow.box-length") * d.n("overflow.box-width")
    foot = (d.n("overflow.box-length") + 2 * wall) * (d.n("overflow.box-width") + wall)
    plan = d.length * d.width - foot
    back = plan * (d.crest + head - stops) + box_area * (box - min(mouths.values()))
    back += sum(d.content(run, sump_level) for run in d.kids("return"))
    back += d.content("siphon", d.sump_floor + max(d.n("siphon.end"), levels["inlet"]))
    sump_rim = d.n("sump.height") - d.n("sump.bottom")
    free = sum(a * (sump_rim - levels[c]) * (1 - d.n(c + ".filled")) for c, a in chambers)
    surface, floor = d.n("overflow.crest") + head, d.n("overflow.box-rim") - d.n("overflow.box-depth") - wall
    bottom = d.n("tank.bottom")
    water = (d.length * d.width * (surface - bottom) - foot * (surface - max(floor, bottom))) * (1 - d.n("tank.rock"))
    return [flow, head, sharp, siphon, trickle, blocked, back, free, 3600 * flow / water,
            levels["inlet"], levels["skimming"]]


if __name__ == "__main__":
    for name, changes in CASES:
        sets = ", ".join('"%s"' % c for c in changes)
        print('    {"%s",\n     {%s},\n     {%s}},' % (name, sets, ", ".join("%.6g" % x for x in work(changes))))
