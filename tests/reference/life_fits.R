# Our Weibull fits against R's survival package: Rscript life_fits.R PROGRAM
# With --self-test every scale is made wrong by 1 in 10 000, which must be noticed.
suppressPackageStartupMessages(library(survival))
arguments <- commandArgs(trailingOnly = TRUE)
spoilt <- "--self-test" %in% arguments
ours <- read.csv(text = system2(arguments[length(arguments)], stdout = TRUE))
stopifnot(nrow(ours) > 100)
bad <- 0
near <- function(words, a, b, tolerance) {
  if (!is.finite(a) || !is.finite(b) || abs(a - b) > tolerance * max(abs(b), 1e-300)) {
    cat(sprintf("%s: ours %.10g, survival %.10g\n", words, a, b))
    bad <<- bad + 1
  }
}
for (name in unique(ours$set)) {
  rows <- ours[ours$set == name, ]
  low <- ifelse(rows$from == 0, NA, rows$from)
  high <- ifelse(is.infinite(rows$to), NA, rows$to)
  lives <- Surv(low, high, type = "interval2")
  control <- survreg.control(maxiter = 200, rel.tolerance = 1e-13)
  free <- survreg(lives ~ 1, weights = rows$count, control = control)
  fixed <- survreg(lives ~ 1, weights = rows$count, scale = 0.5, control = control)
  scale <- rows$scale[1] * (if (spoilt) 1.0001 else 1)
  near(paste(name, "shape"), rows$shape[1], 1 / free$scale, 1e-6)
  near(paste(name, "scale"), scale, exp(coef(free)[[1]]), 1e-6)
  near(paste(name, "likelihood"), rows$log_likelihood[1], free$loglik[1], 1e-9)
  near(paste(name, "scale at shape 2"), rows$scale_at_2[1], exp(coef(fixed)[[1]]), 1e-6)
}
sets <- length(unique(ours$set))
cat(sprintf("%d sets, %d differences\n", sets, bad))
if (spoilt) quit(status = if (bad == sets) 0 else 1)
quit(status = if (bad == 0 && sets == 10) 0 else 1)
