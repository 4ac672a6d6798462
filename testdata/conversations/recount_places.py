#!/usr/bin/env python3
"""Works out again, from the lines that a conversation logged (.jsonl), what incubators did to
cells, and compares it with every number of hours and every time that the bot said (.out). It
shares no code with the program: the figures stand here once more.

    python3 recount_places.py NAME.jsonl ...    prints how many numbers agree, or what differs
"""
import json
import math
import re
import sys
from datetime import datetime, timedelta

SEALED, OUT, HATCH = 192.0, 385.0, 72.0  # hours from the egg; a larva is counted from hatching
PER_DEGREE, BROOD = 27 / 2.5, 34.5       # hours later for each °C cooler over the sealed stage
CLOSE = 240.0                            # hours after the graft


def hours(a, b):
    return (b - a).total_seconds() / 3600


class Lot:
    def __init__(self, place, count, at):
        self.count, self.stays = count, [[place, at, None]]

    @property
    def place(self):
        return self.stays[-1][0]

    def enter(self, place, at):
        if place != self.place:
            self.stays[-1][2] = at
            self.stays.append([place, at, None])

    def part(self, n):
        other = Lot(None, n, None)
        other.stays = [list(s) for s in self.stays]
        self.count -= n
        return other


def replay(lines):
    """The batches, and the temperatures by incubator, after some lines."""
    batches, temps = {}, {}
    for e in sorted(lines, key=lambda e: (e["happened"], e["id"])):
        at, into, n = e["happened"], e.get("into"), e.get("count")
        if e["step"] == "temp":
            temps.setdefault(e["subject"], []).append(e)
        if e["step"] == "graft":
            lo, hi = e.get("age_lo", 12), e.get("age_hi", 24)
            batches[e["subject"]] = {"graft": at, "age": (lo + hi) / 2, "lots": [Lot(into, n, at)], "moved": []}
        b = batches.get(e["subject"])
        if b is None:
            continue
        lots = b["lots"]
        chosen = [x for x in lots if x.place == e.get("out")] if e.get("out") else lots
        if e["step"] in ("accept", "capped") and len(chosen) == 1 and n is not None:
            chosen[0].count = n
        if e["step"] == "finish" and into or e["step"] == "place":
            for x in list(chosen):
                if n is not None and x.count is not None and n < x.count:
                    x = x.part(n)
                    lots.append(x)
                x.enter(into, at)
        if e["step"] == "move":
            left = n
            for x in list(reversed(chosen)):
                took = x.count if left is None or left >= x.count else left
                if left is not None:
                    left -= took
                if took:
                    y = x.part(took)
                    y.enter("nucs", at)
                    b["moved"].append(y)
            b["lots"] = [x for x in lots if x.count]
    return batches, temps


def reading(list_, t):
    """The temperature at an instant, and whether the power was out and nobody knows."""
    base, told, cut = BROOD, None, None
    for e in list_:
        until = datetime.fromisoformat(e["until"]) if e.get("until") else None
        if e["happened"] > t or until and t >= until:
            continue
        if "c" not in e:
            cut = True
        elif until is None:
            base = e["c"]
        elif told is None or e["id"] > told["id"]:
            told = e
    return (told["c"], False) if told else (base, bool(cut))


def effect(b, lot, temps):
    """Hours that incubators put a lot off, and the most that power cuts may add. It is summed
    minute by minute, which is why it agrees to hundredths of an hour only."""
    egg = b["graft"] - timedelta(hours=HATCH + b["age"])
    sealed, out = egg + timedelta(hours=SEALED), egg + timedelta(hours=OUT)
    shift = most = 0.0
    for place, since, till in lot.stays:
        if not place or not place.startswith("incubator "):
            continue
        t, end = max(since, sealed), min(till or out, out)
        while t < end:
            c, cut = reading(temps.get(place, []), t)
            step = min(timedelta(minutes=1), end - t)
            shift += PER_DEGREE * (BROOD - c) * hours(t, t + step) / (OUT - SEALED)
            most += hours(t, t + step) if cut else 0
            t += step
    return shift, most


def at_place(b, place, temps):
    """Of the lots that are or were in a place those that come first."""
    all_ = [effect(b, x, temps) for x in b["lots"] + b["moved"] if any(s[0] == place for s in x.stays)]
    return min(all_, default=(0.0, 0.0))


def messages(name):
    """What was logged by each message, and what its answer said, by its number."""
    said, n = {}, None
    for line in open(name.replace(".jsonl", ".out"), encoding="utf-8"):
        m = re.match(r"\[(\d+)\] ", line)
        if m:
            n = int(m.group(1))
        elif n is not None:
            said.setdefault(n, []).append(line.rstrip("\n"))
    for raw in open(name, encoding="utf-8"):
        m = json.loads(raw)
        yield m["logged"], said.get(m["n"], []), m["n"]


def when(text, zone):
    m = re.search(r"(\d{4}-\d\d-\d\d) (\d\d:\d\d)", text)
    return datetime.fromisoformat(m.group(1) + "T" + m.group(2)).replace(tzinfo=zone)


def check(name):
    lines, wrong, count, ids = [], [], 0, 0

    def same(n, what, said, mine, slack):
        nonlocal count
        count += 1
        if abs(said - mine) > slack:
            wrong.append(f"{name} [{n}] {what}: said {said}, recounted {mine}")

    for logged, said, n in messages(name):
        before, old = replay(lines)
        for e in logged:
            ids += 1
            e = dict(e, id=ids, happened=datetime.fromisoformat(e["happened"]))
            if e["action"] == "did":
                lines.append(e)
            elif e["action"] == "void":
                for k in range(len(lines) - 1, -1, -1):
                    if lines[k]["step"] == e["step"] and lines[k]["subject"] == e["subject"]:
                        del lines[k]
                        break
        after, temps = replay(lines)
        place = next((e["subject"] for e in reversed(logged) if e["step"] == "temp"), None)
        for text in said:
            zone = next(iter(after.values()))["graft"].tzinfo if after else None
            m = re.search(r"e_effect_(none|sooner|later|power)\(Batch=(?:subject|head)_batch\(Key=(\d+)\)", text)
            if m and place:
                b = after["batch " + m.group(2)]
                shift, most = at_place(b, place, temps)
                was, was_most = at_place(before["batch " + m.group(2)], place, old) if "batch " + m.group(2) in before else (0, 0)
                h = re.search(r"Hours=([\d.]+)", text)
                if m.group(1) == "power":
                    same(n, "most", float(re.search(r"Most=([\d.]+)", text).group(1)), most - was_most, 0.06)
                else:
                    sign = -1 if m.group(1) == "sooner" else 1
                    same(n, "hours", sign * float(h.group(1)) if h else 0.0, shift - was, 0.06)
                    middle = b["graft"] + timedelta(hours=OUT - HATCH - b["age"] + shift)
                    same(n, "emerges", hours(b["graft"], when(re.search(r"Emerges=([^,)]*)", text).group(1), zone)), hours(b["graft"], middle), 0.51)
                c = re.search(r"e_effect_close\(Close=([^)]*)", text)
                if c:
                    first = min(effect(b, x, temps)[0] for x in b["lots"])
                    same(n, "close", hours(b["graft"], when(c.group(1), zone)), math.floor((CLOSE + min(0, first)) * 60) / 60, 0.02)
            m = re.search(r"s_lot\(Cells=cells_some\(Count=(\d+)\), Emerges=([^,]*), Head=(?:subject|head)_batch\(Key=(\d+)\).*?\)( s_lot_power\(Most=([\d.]+)\))?$", text)
            if m:
                b = after["batch " + m.group(3)]
                fit = [effect(b, x, temps) for x in b["lots"] if x.count == int(m.group(1)) and x.place.startswith("incubator")]
                same(n, "cells", len(fit), 1, 0)
                middle = OUT - HATCH - b["age"] + fit[0][0]
                same(n, "emerges", hours(b["graft"], when(m.group(2), zone)), middle, 0.51)
                same(n, "most", float(m.group(5) or 0), fit[0][1], 0.06)
    return count, wrong


def main():
    total, wrong = 0, []
    for name in sys.argv[1:]:
        n, bad = check(name)
        total += n
        wrong += bad
    print("\n".join(wrong) if wrong else f"{total} numbers agree")
    return 1 if wrong or not total else 0


if __name__ == "__main__":
    sys.exit(main())
