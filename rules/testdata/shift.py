# Writes shift_means.csv: by how many hours a crew's cells come out later than the books say
# after the looks of shift_looks.csv, the mean of the posterior. Nothing is shared with the
# Go code: the ages, the share of cells that hatch, the batch term and the shift are
# integrated by Simpson's rule on grids of their own.
#   cd rules/testdata && python3 shift.py
import csv, math

BOOKS = 385.0 - 72.0  # hours from a larva just hatched to the queen
BATCH, CELL = 8.0, 7.5
SPREAD, MOST = 12.0, 36.0
STRAY = 0.005  # a virgin among cells that is none of theirs
# share of cells that hatch: mean and width of the published range, over-dispersion 0.05
LO, HI, RHO = 6.0 / 9.0, 44.3 / 46.8, 0.05


def simpson(a, b, n):
    h = (b - a) / n
    return [(a + i * h, h / 3 * (1 if i in (0, n) else 4 if i % 2 else 2)) for i in range(n + 1)]


mean = (LO + HI) / 2
var = ((HI - LO) / 4) ** 2 + mean * (1 - mean) * RHO
k = mean * (1 - mean) / var - 1
HATCH = [(x, w * x ** (mean * k - 1) * (1 - x) ** ((1 - mean) * k - 1)) for x, w in simpson(1e-9, 1 - 1e-9, 400)]
total = sum(w for _, w in HATCH)
HATCH = [(x, w / total) for x, w in HATCH]


def phi(x):
    return 0.5 * math.erfc(-x / math.sqrt(2))


def out(hours, lo, hi):
    """chance that a cell that hatches is out so many hours after the graft"""
    return sum(w * phi((hours - BOOKS + a) / CELL) for a, w in simpson(lo, hi, 24)) / (hi - lo)


def likelihood(looks, late):
    moved = sum(l["of"] for l in looks if l["kind"] == "moved")
    known, some = [], []
    for place in sorted({l["place"] for l in looks}):
        was, seen, of = 0.0, 0, 0
        for l in looks:
            if l["place"] != place or l["kind"] == "some":
                continue
            p = out(l["hours"] - late, l["lo"], l["hi"])
            if l["out"] > seen:
                known.append((l["out"] - seen, p - was, False))
            was, seen, of = p, max(seen, l["out"]), l["of"]
        if of:
            known.append((of - seen, was, True))
    for l in looks:
        if l["kind"] == "some":
            some.append((max(1, l["of"] - moved), out(l["hours"] - late, l["lo"], l["hi"])))
    total = 0.0
    for x, w in HATCH:
        v = w
        for n, p, waiting in known:
            v *= (1 - x * p) ** n if waiting else (x * p) ** n
        for n, p in some:
            v *= STRAY + (1 - STRAY) * (1 - (1 - x * p) ** n)
        total += v
    return total


cases = {}
for row in csv.DictReader(open("shift_looks.csv")):
    look = {"kind": row["kind"], "hours": float(row["hours"]), "place": row["place"], "out": int(row["out"]), "of": int(row["of"]),
            "lo": float(row["age_lo"]), "hi": float(row["age_hi"])}
    cases.setdefault(row["case"], {}).setdefault(row["batch"], []).append(look)

with open("shift_means.csv", "w") as f:
    f.write("case,mean\n")
    for name, batches in cases.items():
        shifts = simpson(-MOST, MOST, 144)
        post = [math.exp(-((m / SPREAD) ** 2) / 2) for m, _ in shifts]
        for looks in batches.values():
            lates = simpson(-MOST - 7 * BATCH, MOST + 7 * BATCH, 368)
            given = [likelihood(looks, d) for d, _ in lates]
            for i, (m, _) in enumerate(shifts):
                post[i] *= sum(w * g * math.exp(-(((d - m) / BATCH) ** 2) / 2) for (d, w), g in zip(lates, given))
        total = sum(p * w for p, (_, w) in zip(post, shifts))
        f.write(f"{name},{sum(p * w * m for p, (m, w) in zip(post, shifts)) / total:.4f}\n")
