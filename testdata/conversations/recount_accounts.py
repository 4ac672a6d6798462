#!/usr/bin/env python3
"""Keeps the accounts of batches by the lines that a conversation logged (.jsonl), and compares
them with every count, by stage, yard and loss, that the bot said (.out). It shares no code with
the program.

    python3 recount_accounts.py NAME.jsonl ...    prints how many numbers agree, or what differs
"""
import json
import re
import sys
from datetime import datetime

WHOLE = ["graft", "accept", "capped"]  # counts of cells
QUEENS = ["move", "emerge", "laying"]  # counts of a yard


def standing(lines):
    """The lines as they count: without those taken back, with what was put right."""
    out = []
    for e in lines:
        same = [x for x in out if all(x.get(k) == e.get(k) for k in ("step", "subject"))]
        if e["action"] == "did":
            out.append(dict(e))
        elif e["action"] == "void":
            same = [x for x in same if x.get("into") == e.get("into") and x.get("count") == e.get("count")]
            if same:
                out.remove(same[-1])
        elif e["action"] == "amend":
            here = [x for x in same if x.get("into") == e.get("into")] or same
            here[-1].update({k: e.get(k) for k in ("count", "happened", "into", "cause", "all", "more")})
    return sorted(out, key=lambda e: (datetime.fromisoformat(e["happened"]), e["n"]))


def newest(counts, order):
    """The furthest count, and how many were lost and caught of it."""
    for step in reversed(order):
        if step in counts:
            return counts[step] - counts.get("since " + step, 0) - counts.get("out", 0)
    return 0


def lose(counts, order, n):
    counts["lost"] = counts.get("lost", 0) + n
    for step in reversed(order):
        if step in counts:
            counts["since " + step] = counts.get("since " + step, 0) + n
            return


def accounts(lines):
    """By batch: its cells, its yards, and what was lost by cause."""
    batches = {}
    for e in standing(lines):
        n, step, into = e.get("count"), e["step"], e.get("into")
        if step == "graft":
            batches[e["subject"]] = {"cells": {}, "yards": {}, "lost": {}}
        b = batches.get(e["subject"])
        if b is None or e.get("more") or e.get("none_yet"):
            continue
        cells, yards = b["cells"], b["yards"]
        if step in WHOLE and n is not None:
            cells[step] = n
        elif step == "move" and n is not None:
            cells["out"] = cells.get("out", 0) + n
            y = yards.setdefault(into, {})
            y["move"] = y.get("move", 0) + n
        elif step in QUEENS and n is not None and (e.get("part") or len(yards) == 1):
            yards[into if e.get("part") else next(iter(yards))][step] = n
        elif step == "catch" and n is not None:
            yards[into]["out"] = yards[into].get("out", 0) + n
        elif step == "lose":
            held = [(y, QUEENS) for name, y in yards.items() if name == into or not into]
            if not held or not into:
                held.append((cells, WHOLE))
            for counts, order in held:
                gone = newest(counts, order) if e.get("all") else n
                lose(counts, order, gone)
                b["lost"][e.get("cause") or "unsaid"] = b["lost"].get(e.get("cause") or "unsaid", 0) + gone
    return batches


def total(b, step):
    if step in WHOLE:
        return b["cells"].get(step)
    key = "out" if step == "catch" else step
    parts = [y.get(key) for y in b["yards"].values() if newest(y, QUEENS) > 0 or key in y]
    if step == "catch":
        parts = [p for p in parts if p is not None]
    return sum(parts) if parts and None not in parts else None


def check(name):
    said, n = {}, None
    for line in open(name.replace(".jsonl", ".out"), encoding="utf-8"):
        m = re.match(r"\[(\d+)\] ", line)
        if m:
            n = int(m.group(1))
        elif n is not None:
            said.setdefault(n, []).append(line)
    lines, agree, wrong = [], 0, []

    def same(what, want, got, n):
        nonlocal agree
        if want == got:
            agree += 1
        else:
            wrong.append(f"{name} [{n}] {what}: said {got}, recounted {want}")

    for raw in open(name, encoding="utf-8"):
        m = json.loads(raw)
        for e in m["logged"]:
            lines.append(dict(e, n=len(lines)))
        text = "".join(said.get(m["n"], []))
        b = accounts(lines).get(m["subject"] or "")
        if b is None:
            continue
        for row in re.findall(r"^s_counts\((.*)\)$", text, re.M):
            for count, step in re.findall(r"Count=(\d+), Past=past_(\w+)", row):
                if step != "nucs":
                    same(step, total(b, step), int(count), m["n"])
        for row, yard in re.findall(r"^s_by_yard\(List=(.*), Yard=(\w+)\)$", text, re.M):
            y = b["yards"][yard]
            for count, step in re.findall(r"Count=(\d+), Past=past_(\w+)", row):
                key = {"catch": "out", "lose": "lost"}.get(step, step)
                same(yard + " " + step, y.get(key), int(count), m["n"])
        for row in re.findall(r"^s_lost\(List=(.*)\)$", text, re.M):
            for cause, count in re.findall(r"Cause=lost_(\w+), Count=(\d+)", row):
                same("lost " + cause, b["lost"].get(cause), int(count), m["n"])
        gone = [e for e in m["logged"] if e["step"] == "lose" and e["action"] == "did"]
        for all_, count, of in re.findall(r"lost_left(_of)?\((?:All=\d+, )?Count=(\d+)\)()", text):
            into = gone[-1].get("into")
            left = newest(b["yards"][into], QUEENS) if into in b["yards"] else newest(b["cells"], WHOLE)
            same("left", left, int(count), m["n"])
    return agree, wrong


if __name__ == "__main__":
    agree, wrong = 0, []
    for name in sys.argv[1:]:
        a, w = check(name)
        agree, wrong = agree + a, wrong + w
    if wrong:
        sys.exit("\n".join(wrong))
    print(agree, "numbers agree")
