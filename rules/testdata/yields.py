# Writes yields_pmf.csv: the beta-binomial law by SciPy's own scipy.stats.betabinom.
# Made with Debian 12's python3-scipy 1.10.1 (Python 3.11.2):
#   apt-get install -y --no-install-recommends python3-scipy
#   cd rules/testdata && /usr/bin/python3 yields.py
from scipy.stats import betabinom, binom

with open("yields_pmf.csv", "w") as f:
    f.write("n,mean,rho,k,pmf,cdf\n")
    for n in (1, 7, 45, 300):
        for mean in (0.03, 0.5, 0.745, 0.98):
            for rho in (0, 0.01, 0.05, 0.3, 0.8):
                law = binom(n, mean) if rho == 0 else betabinom(n, mean * (1 / rho - 1), (1 - mean) * (1 / rho - 1))
                for k in sorted({0, n // 3, n // 2, round(n * mean), max(n - 1, 0), n}):
                    f.write(f"{n},{mean},{rho},{k},{law.pmf(k):.12g},{law.cdf(k):.12g}\n")
