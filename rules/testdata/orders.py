# Writes orders.csv: the chance of an order whose batches share nucs, by drawing seasons.
# Standard library alone; python3 orders.py (about a minute).
# A season's rates and over-dispersions are known here; each batch draws its own rates by
# beta laws of mean m and shape m(1/rho-1), then its counts one by one. Batches are moved in
# the order given and share the nucs, those of an earlier one being free again where caught.
import random

random.seed(5)
M = (0.78, 0.90, 0.85, 0.80)


def thin(n, m, rho):
    p = m if rho == 0 else random.betavariate(m * (1 / rho - 1), (1 - m) * (1 / rho - 1))
    return sum(random.random() < p for _ in range(n))


with open("orders.csv", "w") as f:
    f.write("grafts,nucs,rho,want,chance\n")
    for grafts, nucs in (((30, 30, 31), 60), ((25,) * 4, 60), ((20, 35), 30), ((40, 40), 25)):
        for rho in (0, 0.05):
            for want in (10, 15, 20, 30):
                runs, ok = 40000, 0
                for _ in range(runs):
                    left, got = nucs, 0
                    for n in grafts:
                        cells = min(thin(thin(n, M[0], rho), M[1], rho), left)
                        left -= cells
                        got += thin(thin(cells, M[2], rho), M[3], rho)
                    ok += got >= want
                f.write(f"{' '.join(map(str, grafts))},{nucs},{rho},{want},{ok / runs:.4f}\n")
