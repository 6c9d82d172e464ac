#!/usr/bin/env python3
"""Decks for CalculiX: a round collar pressed into a tapered hole, and two cases
with a closed form that the same elements, material law and force output must
reproduce first.

    python3 nosing.py DIR    writes the decks, runs ccx on each, prints the table

Units: mm, N, MPa. Axisymmetric, second-order elements with reduced integration
(CAX8R), large strain. CalculiX models a wedge of 2 degrees; forces are given for
the whole ring.
"""
import math
import os
import re
import subprocess
import sys

ELASTIC_MPA, POISSON = 79000.0, 0.37  # sterling silver, from memory


FIRST_STRAIN = 0.002  # where the curve sigma = K strain^n begins to count


def ludwik(K, n):
    """Yield stress against plastic strain of sigma = K strain^n."""
    strains = [FIRST_STRAIN * 1.17**k for k in range(41)]
    return [(K * e**n, e - strains[0]) for e in strains]


class Mesh:
    """A block of na x nb CAX8R elements on the unit square, mapped by place."""

    def __init__(self, na, nb, place, first=1):
        self.na, self.nb, self.nodes, self.elements, self.at = na, nb, {}, [], {}
        n = first
        for j in range(2 * nb + 1):
            for i in range(2 * na + 1):
                if i % 2 and j % 2:
                    continue
                self.at[i, j] = n
                self.nodes[n] = place(i / (2 * na), j / (2 * nb))
                n += 1
        for b in range(nb):
            for a in range(na):
                i, j = 2 * a, 2 * b
                order = [(0, 0), (2, 0), (2, 2), (0, 2), (1, 0), (2, 1), (1, 2), (0, 1)]
                self.elements.append([self.at[i + p, j + q] for p, q in order])

    def side(self, i=None, j=None):
        return [n for (a, b), n in self.at.items() if (i is None or a == i) and (j is None or b == j)]


def deck(title, parts, body):
    """The text of a deck. parts are (name, mesh)."""
    out = ["** " + title, "*NODE, NSET=NALL"]
    for _, m in parts:
        out += ["%d, %.7f, %.7f, 0" % (n, x, y) for n, (x, y) in m.nodes.items()]
    e = 1
    for name, m in parts:
        out.append("*ELEMENT, TYPE=CAX8R, ELSET=" + name)
        for el in m.elements:
            out.append(", ".join(map(str, [e] + el)))
            e += 1
    return "\n".join(out + body) + "\n"


def nset(name, nodes):
    nodes = sorted(nodes)
    return ["*NSET, NSET=" + name] + [", ".join(map(str, nodes[k:k + 12])) + "," for k in range(0, len(nodes), 12)]


def material(name, elset, plastic=None):
    out = ["*MATERIAL, NAME=" + name, "*ELASTIC", "%g, %g" % (ELASTIC_MPA, POISSON)]
    if plastic:
        out.append("*PLASTIC")
        out += ["%.6f, %.6f" % p for p in plastic]
    return out + ["*SOLID SECTION, ELSET=%s, MATERIAL=%s" % (elset, name)]


def run(directory, name, text):
    with open(os.path.join(directory, name + ".inp"), "w") as f:
        f.write(text)
    with open(os.path.join(directory, name + ".log"), "w") as f:
        subprocess.run(["ccx", "-i", name], cwd=directory, stdout=f, check=True,
                       env=dict(os.environ, OMP_NUM_THREADS="1"))
    return read(os.path.join(directory, name + ".dat"))


def read(path):
    """The printed results: a list of (what, time, {node: values} or total)."""
    results, now = [], None
    for line in open(path):
        m = re.match(r"\s*(total force|displacements|forces|stresses).*set\s+(\S+)\s+and time\s+(\S+)", line)
        if m:
            now = (m.group(1) + " " + m.group(2), float(m.group(3)), {})
            results.append(now)
            continue
        f = line.split()
        if now and f:
            try:
                v = [float(x) for x in f]
            except ValueError:
                continue
            if now[0].startswith("total"):
                now[2][0] = v
            elif now[0].startswith("stresses"):
                now[2][int(v[0]), int(v[1])] = v[2:]
            else:
                now[2][int(v[0])] = v[1:]
    return results


def of(results, what):
    return [(t, v) for w, t, v in results if w == what]


def lame(directory, n):
    """A thick tube under inner pressure, plane strain: u at the bore (G. Lame)."""
    a, b, h, p = 4.0, 6.0, 1.0, 10.0
    m = Mesh(n, 1, lambda s, t: (a + s * (b - a), t * h))
    body = nset("ENDS", m.side(j=0) + m.side(j=2)) + nset("BORE", m.side(i=0))
    body += material("ELASTIC", "TUBE")
    body += ["*BOUNDARY", "ENDS, 2, 2", "*STEP", "*STATIC", "*DLOAD"]
    body += ["1, P4, %g" % p]
    body += ["*NODE PRINT, NSET=BORE", "U", "*END STEP"]
    r = run(directory, "lame-%d" % n, deck("Thick tube under pressure", [("TUBE", m)], body))
    got = sum(v[0] for v in of(r, "displacements BORE")[-1][1].values()) / len(m.side(i=0))
    want = (1 + POISSON) / ELASTIC_MPA * p * a * a / (b * b - a * a) * ((1 - 2 * POISSON) * a + b * b / a)
    return got, want


def upset(directory, n, K, hardening):
    """A ring upset by 20 % between frictionless plates: one stress, K (p + p0)^n,
    on the area that the volume leaves, where e = p + stress / E."""
    a, b, h, e = 4.0, 5.0, 3.0, 0.2
    m = Mesh(n, 2 * n, lambda s, t: (a + s * (b - a), t * h))
    body = nset("FOOT", m.side(j=0)) + nset("TOP", m.side(j=4 * n))
    body += material("SILVER", "TUBE", ludwik(K, hardening))
    body += ["*BOUNDARY", "FOOT, 2, 2", "*STEP, NLGEOM, INC=500", "*STATIC", "0.02, 1., 1e-6, 0.05",
             "*BOUNDARY", "TOP, 2, 2, %.9f" % (h * (math.exp(-e) - 1)),
             "*NODE PRINT, NSET=TOP, TOTALS=ONLY", "RF", "*END STEP"]
    r = run(directory, "upset-%d" % n, deck("Ring between frictionless plates", [("TUBE", m)], body))
    got = 180 * -of(r, "total force TOP")[-1][1][0][1]
    stress = K * e**hardening
    for _ in range(50):
        stress = K * (e - stress / ELASTIC_MPA + FIRST_STRAIN) ** hardening
    area = math.pi * (b * b - a * a) * math.exp(e - (1 - 2 * POISSON) * stress / ELASTIC_MPA)
    return got, stress * area


# The collars of nosing_source_test.go: strip and hole as the plan has them, and
# sterling's flow curve from calc/stock. mean is the radius at mid-wall.
CASES = {
    "gentle": dict(mean=4.6, wall=0.8, height=6.0583, lean=8.5, opening=5.0044, mu=0.1, K=553.28, n=0.35),
    "steep": dict(mean=3.5, wall=0.6, height=3.9544, lean=15.0, opening=3.8106, mu=0.1, K=553.28, n=0.35),
}


def nosing(directory, n, case):
    """The collar pressed by a flat plate until its rim is flush, n elements
    through the wall."""
    c = CASES[case]
    ri, t, h = c["mean"] - c["wall"] / 2, c["wall"], c["height"]
    tan = math.tan(math.radians(c["lean"]))
    nb = round(h / t * n * 0.8)
    tube = Mesh(n, nb, lambda s, u: (ri + s * t, u * h))
    # The hole's side goes on above the face, where nothing touches it.
    up, down, thick = 1.0, h + 2.0, 1.5
    hole = Mesh(1, 1, lambda s, u: (c["opening"] + (up - (1 - u) * (up + down)) * tan + s * thick, up - (1 - u) * (up + down)),
                first=len(tube.nodes) + 1)
    top, outer = tube.side(j=2 * nb), tube.side(i=2 * n)
    body = nset("TOP", top) + nset("OUTER", outer) + nset("INNER", tube.side(i=0)) + nset("FOOT", tube.side(j=0))
    body += nset("HOLE", hole.nodes) + material("SILVER", "TUBE", ludwik(c["K"], c["n"])) + material("STEEL", "DIE")
    body += ["*SURFACE, NAME=WALL"] + ["%d, S2" % (n * (b + 1)) for b in range(nb)] + ["%d, S1" % n]
    body += ["*SURFACE, NAME=SIDE", "%d, S4" % (n * nb + 1)]
    body += ["*SURFACE INTERACTION, NAME=OILED", "*SURFACE BEHAVIOR, PRESSURE-OVERCLOSURE=LINEAR", "2e5",
             "*FRICTION", "%g, 2e4" % c["mu"], "*CONTACT PAIR, INTERACTION=OILED, TYPE=SURFACE TO SURFACE", "WALL, SIDE"]
    body += ["*BOUNDARY", "HOLE, 1, 2", "*STEP, NLGEOM, INC=5000", "*STATIC", "0.01, 1., 1e-7, 0.02",
             "*BOUNDARY", "TOP, 2, 2, %.6f" % -h,
             "*NODE PRINT, NSET=TOP, TOTALS=ONLY, FREQUENCY=5", "RF",
             "*NODE PRINT, NSET=OUTER, FREQUENCY=1000", "U", "*NODE PRINT, NSET=INNER, FREQUENCY=1000", "U", "*END STEP"]
    r = run(directory, "nosing-%s-%d" % (case, n), deck("A round collar in a tapered hole", [("TUBE", tube), ("DIE", hole)], body))
    moved = {}
    for what in ("displacements OUTER", "displacements INNER"):
        for node, v in of(r, what)[-1][1].items():
            x, y = tube.nodes[node]
            moved[node] = (x + v[0], y + v[1])
    def wall(u):
        j = min(2 * nb, max(0, 2 * round(u * nb)))
        (x0, y0), (x1, y1) = moved[tube.at[0, j]], moved[tube.at[2 * n, j]]
        return math.hypot(x1 - x0, y1 - y0), (x0 + x1) / 2
    loads = [(t, 180 * -v[0][1]) for t, v in of(r, "total force TOP")]
    foot, foot_radius = wall(0)
    return dict(load=max(f for _, f in loads), foot=foot, near_foot=wall(1 / 12)[0], middle=wall(0.5)[0], rim=wall(1)[0],
                foot_radius=foot_radius, height=-min(y for _, y in moved.values()) + max(y for _, y in moved.values()))


def main():
    directory = sys.argv[1]
    for n in (2, 4, 8):
        got, want = lame(directory, n)
        print("thick tube, %d elements: bore moves %.6f mm, closed form %.6f (%+.3f %%)" % (n, got, want, 100 * (got / want - 1)))
    for n in (1, 2):
        got, want = upset(directory, n, CASES["gentle"]["K"], CASES["gentle"]["n"])
        print("ring upset, %d elements: %.1f N, closed form %.1f (%+.3f %%)" % (n, got, want, 100 * (got / want - 1)))
    for case in CASES:
        for n in (2, 3, 4):
            r = nosing(directory, n, case)
            print("%s, %d elements through the wall: " % (case, n) + ", ".join("%s %.4f" % kv for kv in r.items()), flush=True)


if __name__ == "__main__":
    main()
