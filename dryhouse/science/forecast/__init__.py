"""When will it be done: the forecast of a run from its weighings.

answer = forecast(hours, grams, dry_matter_g=…, target_moisture_pct=…,
                  dry_matter_sd_g=0.0, equilibrium=None, prior=None, resolution_g=None, basis=())
answer.finish.median            # hours from the first weighing; also low80, low50, high50, high80
answer.reached_at               # hour at which the weighings already crossed the target, or None
answer.weigh_again_at           # hour of the most useful next weighing, or None
answer.mass_at(hours)           # Bands of net mass (g) at later times; .moisture_at for % wet basis
answer.sentence, .workings, .basis, .cautions, .figure()

prior_from_runs([PageRun(k, n, temperature_c), …], temperature_c, energy)     # own earlier runs
prior_from_published(PageRun(k, n, temperature_c), temperature_c, energy, basis)
"""

from dryhouse.science.forecast.answer import Bands, Equilibrium, Finish, Forecast, Prior
from dryhouse.science.forecast.forecasting import forecast
from dryhouse.science.forecast.priors import Activation, PageRun, prior_from_published, prior_from_runs

__all__ = [
    "Activation",
    "Bands",
    "Equilibrium",
    "Finish",
    "Forecast",
    "PageRun",
    "Prior",
    "forecast",
    "prior_from_published",
    "prior_from_runs",
]
