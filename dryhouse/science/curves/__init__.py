"""Drying curves: the models of the field, fitted to a run and chosen between.

curves = fit_all(hours, mr)      # two lists of one length, hours ascending from the first weighing
curves.chosen                    # Fit | None     curves.why says why; curves.warnings about the weighings
curves.fits[0].parameters["k"]   # (value, standard error)
curves.chosen.at(hours)          # MR on the curve
rates(hours, grams, dry_matter_g)     # drying rate between neighbouring weighings against moisture
periods(hours, mr)                    # Message: constant and falling rate
"""

from dryhouse.science.curves.choose import fit_all
from dryhouse.science.curves.models import MODELS, model
from dryhouse.science.curves.rate import Rates, periods, rates
from dryhouse.science.curves.result import CurveSet, Fit

__all__ = [
    "MODELS",
    "CurveSet",
    "Fit",
    "Rates",
    "fit_all",
    "model",
    "periods",
    "rates",
]
