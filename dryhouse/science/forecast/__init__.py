"""When will it be done: the forecast of a run from its weighings.

known = Beforehand(exactly(…), target_moisture_pct, equilibrium=None, prior=None, basis=())
answer = forecast(hours, grams, known, heating=None)
answer.finish.median            # hours from the first weighing; also low80, low50, high50, high80
answer.reached_at               # hour at which the weighings already crossed the target, or None
answer.weigh_again_at           # hour of the most useful next weighing, or None
answer.mass_at(hours)           # Bands of net mass (g) at later times; .moisture_at for % wet basis
answer.stops                    # stretches in which the dryer seems to have stood still: asked about, not counted
answer.workings, .basis, .cautions, .figure()

prior_from_hours(hours: Fact, mr_target)                                 # published drying time of a food
prior_from_published(PageRun(k, n, temperature_c), temperature_c, energy, basis)    # energy: Fact in kJ/mol
"""

from dryhouse.science.forecast.answer import Bands, Beforehand, Equilibrium, Finish, Forecast, Prior
from dryhouse.science.forecast.forecasting import forecast
from dryhouse.science.forecast.pace import Heating
from dryhouse.science.forecast.priors import PageRun, arrhenius_step, prior_from_hours, prior_from_published

__all__ = [
    "Bands",
    "Beforehand",
    "Equilibrium",
    "Finish",
    "Forecast",
    "Heating",
    "PageRun",
    "Prior",
    "arrhenius_step",
    "forecast",
    "prior_from_hours",
    "prior_from_published",
]
