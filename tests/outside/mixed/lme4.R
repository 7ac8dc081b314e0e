# Wrote the CSV files and lme4.json of this folder: Rscript lme4.R, in this folder. Not run by any test.
# The optimum is lme4's, gone on from by bobyqa with a radius down to 1e-12, so that it is good to lme4's arithmetic.
suppressPackageStartupMessages({ library(lme4); library(jsonlite) })
data(Machines, package = "nlme")
save_csv <- function(d, name) write.csv(d, paste0(name, ".csv"), row.names = FALSE, quote = FALSE)

pastes <- Pastes[, c("strength", "batch", "cask")]
machines <- data.frame(Worker = paste0("w", Machines$Worker), Machine = as.character(Machines$Machine), score = Machines$score)
cake2 <- data.frame(replicate = paste0("r", cake$replicate), recipe = as.character(cake$recipe),
                    temperature = paste0("t", cake$temperature), temp = cake$temp, angle = cake$angle)
sleep <- sleepstudy
sleep$w <- 1 + (seq_len(nrow(sleep)) %% 4) / 2
save_csv(Dyestuff[, c("Batch", "Yield")], "dyestuff")
save_csv(Dyestuff2[, c("Batch", "Yield")], "dyestuff2")
save_csv(Penicillin[, c("diameter", "plate", "sample")], "penicillin")
save_csv(pastes, "pastes")
save_csv(machines, "machines")
save_csv(cake2, "cake")
save_csv(sleepstudy, "sleepstudy")

tight <- lmerControl(optimizer = "bobyqa", optCtrl = list(rhoend = 1e-12, maxfun = 1e5), calc.derivs = FALSE,
                     check.conv.singular = "ignore")
fits <- list()
add <- function(name, formula, data, weights = NULL) for (reml in c(TRUE, FALSE)) {
  fit <- eval(bquote(lmer(.(formula), data, REML = .(reml), weights = .(weights), control = tight)))
  covariance <- VarCorr(fit)
  effects <- lapply(ranef(fit, condVar = FALSE), function(e) lapply(split(e, rownames(e)), function(row) as.list(row)))
  fits[[paste(name, if (reml) "reml" else "ml")]] <<- list(
    criterion = as.numeric(-2 * logLik(fit)), residual = sigma(fit)^2,
    fixed = Map(function(estimate, se) list(estimate = estimate, se = se), as.list(fixef(fit)), sqrt(diag(as.matrix(vcov(fit))))),
    covariance = lapply(covariance, function(m) matrix(as.numeric(m), nrow(m))), effects = effects)
}
add("dyestuff2", Yield ~ 1 + (1 | Batch), Dyestuff2)
add("pastes", strength ~ 1 + (1 | batch) + (1 | batch:cask), pastes)
add("sleepstudy correlated", Reaction ~ Days + (Days | Subject), sleepstudy)
add("sleepstudy weighted", Reaction ~ Days + (Days | Subject), sleep, sleep$w)
add("machines", score ~ Machine + (1 | Worker) + (1 | Worker:Machine), machines)
add("cake covariate", angle ~ recipe + temp + recipe:temp + (1 | recipe:replicate), cake2)
add("cake factors", angle ~ recipe + temperature + recipe:temperature + (1 | recipe:replicate), cake2)
write(toJSON(list(lme4 = as.character(packageVersion("lme4")), R = R.version.string,
                  BLAS = unname(extSoftVersion()["BLAS"]), fits = fits), digits = NA, auto_unbox = TRUE, pretty = TRUE), "lme4.json")
