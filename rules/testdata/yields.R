# Writes the reference tables of yields_test.go, in base R alone:
#   yields_beta.csv    beta quantiles by qbeta
#   yields_fit.csv     mean and over-dispersion of counts: maximum likelihood by optim,
#                      posterior by summing a grid far finer than the program's
#   yields_group.csv   shrunk rates of groups, summed over grids far finer than the program's
#   yields_chain.csv   the four losses one after the other, by matrix product
# Made with Debian 12's r-base-core 4.2.2:
#   apt-get install -y --no-install-recommends r-base-core
#   cd rules/testdata && Rscript yields.R
# yields_counts.csv is the input: invented counts of invented batches.

num <- function(x) trimws(formatC(x, digits = 12, format = "g"))
lbb <- function(x, n, mean, rho) { k <- 1 / rho - 1; lbeta(x + mean * k, n - x + (1 - mean) * k) - lbeta(mean * k, (1 - mean) * k) }
dbb <- function(x, n, mean, rho) exp(lchoose(n, x) + lbb(x, n, mean, rho))

rows <- "a,b,p,q"
for (ab in list(c(1, 1), c(15.7, 5.5), c(38, 7), c(2.5, 0.7), c(400, 130)))
  for (p in c(0.025, 0.05, 0.5, 0.9, 0.975))
    rows <- c(rows, paste(ab[1], ab[2], p, num(qbeta(p, ab[1], ab[2])), sep = ","))
writeLines(rows, "yields_beta.csv")

counts <- read.csv("yields_counts.csv", colClasses = c(set = "character", group = "character"))
# Published range of acceptance, its middle and a quarter of it (yield.go).
lo <- 13.5 / 24; hi <- 39 / 42; m <- (lo + hi) / 2; s <- (hi - lo) / 4
k <- m * (1 - m) / s^2 - 1; a0 <- m * k; b0 <- (1 - m) * k
ra <- 1.5; rb <- 28.5; rlo <- 0.002; rhi <- 0.6

posterior <- function(d) {
  mus <- (seq_len(800) - 0.5) / 800
  rhos <- exp(seq(log(rlo), log(rhi), length.out = 251)); rhos <- sqrt(head(rhos, -1) * tail(rhos, -1))
  g <- expand.grid(mu = mus, rho = rhos)
  l <- dbeta(g$mu, a0, b0, log = TRUE) + dbeta(g$rho, ra, rb, log = TRUE) + log(g$rho)
  for (i in seq_len(nrow(d))) l <- l + lbb(d$got[i], d$of[i], g$mu, g$rho)
  w <- exp(l - max(l)); w <- w / sum(w)
  cum <- cumsum(tapply(w, g$mu, sum))
  next45 <- sapply(0:45, function(x) sum(w * dbb(x, 45, g$mu, g$rho)))
  list(mean = sum(w * g$mu), rho = sum(w * g$rho), q05 = approx(cum, mus + 0.5 / 800, 0.05, ties = "ordered")$y, q95 = approx(cum, mus + 0.5 / 800, 0.95, ties = "ordered")$y,
       n05 = which(cumsum(next45) >= 0.05)[1] - 1, n95 = which(cumsum(next45) >= 0.95)[1] - 1, p30 = next45[31])
}
rows <- "set,ml_mean,ml_rho,ml_loglik,mean,rho,q05,q95,next_lo,next_hi,next_p30"
for (set in c("none", unique(counts$set))) {
  d <- counts[counts$set == set, ]
  ml <- c(NA, NA, NA)
  if (nrow(d) > 2) {
    f <- function(p) -sum(lbb(d$got, d$of, plogis(p[1]), plogis(p[2])))
    o <- optim(c(0.5, -3), f, control = list(reltol = 1e-14, maxit = 5000))
    ml <- c(plogis(o$par), -o$value)
  }
  p <- posterior(d)
  rows <- c(rows, paste(c(set, num(c(ml, p$mean, p$rho, p$q05, p$q95)), p$n05, p$n95, num(p$p30)), collapse = ","))
}
writeLines(rows, "yields_fit.csv")

# Three levels: season's mean mu, group's mean ~ Beta(mu, share of rho), batch's
# around it. Each group's mean is summed out over 4000 steps.
shares <- c(0.02, 0.2, 0.4, 0.6, 0.8, 0.95)
x <- (seq_len(4000) - 0.5) / 4000
mus <- (seq_len(150) - 0.5) / 150
rows <- "set,group,mean,sd"
for (set in c("breeders", "weeks")) {
  d <- counts[counts$set == set, ]
  rho <- posterior(d)$rho
  groups <- unique(d$group)
  w <- matrix(0, length(mus), length(shares)); m1 <- m2 <- array(0, c(length(mus), length(shares), length(groups)))
  for (j in seq_along(shares)) {
    phi <- shares[j] * rho; within <- (rho - phi) / (1 - phi); kk <- 1 / phi - 1
    pull <- sapply(mus, function(mu) dbeta(x, mu * kk, (1 - mu) * kk)) # 4000 by 150
    w[, j] <- dbeta(mus, a0, b0, log = TRUE)
    for (g in seq_along(groups)) {
      e <- d[d$group == groups[g], ]
      l <- 0; for (i in seq_len(nrow(e))) l <- l + lbb(e$got[i], e$of[i], x, within)
      like <- exp(l - max(l)); pieces <- pull * like
      z <- colSums(pieces)
      m1[, j, g] <- colSums(pieces * x) / z; m2[, j, g] <- colSums(pieces * x^2) / z
      w[, j] <- w[, j] + log(z / 4000) + max(l)
    }
  }
  w[!is.finite(w)] <- -Inf
  w <- exp(w - max(w)); w <- w / sum(w)
  for (g in seq_along(groups)) {
    e1 <- sum((w * m1[, , g])[w > 0]); e2 <- sum((w * m2[, , g])[w > 0])
    rows <- c(rows, paste(set, groups[g], num(e1), num(sqrt(e2 - e1^2)), sep = ","))
  }
}
writeLines(rows, "yields_group.csv")

step <- function(n, mean, rho) outer(0:n, 0:n, Vectorize(function(from, to) if (to > from) 0 else if (from == 0) 1 else dbb(to, from, mean, rho)))
rows <- "n,room,k,pmf"
for (n in c(12, 45)) for (room in c(-1, n %/% 2)) {
  p <- c(rep(0, n), 1)
  p <- p %*% step(n, 0.78, 0.05) %*% step(n, 0.9, 0.02)
  if (room >= 0) { p[room + 1] <- sum(p[(room + 1):(n + 1)]); p[(room + 2):(n + 1)] <- 0 }
  p <- p %*% step(n, 0.85, 0.04) %*% step(n, 0.8, 0.08)
  for (i in 0:n) rows <- c(rows, paste(n, room, i, num(p[i + 1]), sep = ","))
}
writeLines(rows, "yields_chain.csv")
