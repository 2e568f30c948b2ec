"""Student's t in plain Python, against SciPy."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from dryhouse.science.yields.student import cdf, pdf, quantile
from tests.rows import every_row

DF = st.floats(0.6, 1000)


@given(st.floats(-60, 60), DF)
def test_the_distribution_function_is_scipys(t, df):
    assert cdf(t, df) == pytest.approx(stats.t.cdf(t, df), abs=1e-11)


@given(st.floats(-20, 20), DF)
def test_the_density_is_scipys(t, df):
    assert pdf(t, df) == pytest.approx(stats.t.pdf(t, df), rel=1e-9)


@given(st.floats(0.005, 0.995), DF)
def test_the_quantile_is_scipys(p, df):
    assert quantile(p, df) == pytest.approx(stats.t.ppf(p, df), rel=1e-8, abs=1e-9)


def test_a_printed_table_of_t():
    # 90 % points of Student's t: any printed table (recalled): 3.078, 1.886, 1.533, 1.372, 1.325
    printed = {1: 3.078, 2: 1.886, 4: 1.533, 10: 1.372, 20: 1.325}
    for df, value in printed.items():
        assert quantile(0.9, df) == pytest.approx(value, abs=5e-4)


@every_row(("p", "df"), [(0.0, 3), (1.0, 3), (0.5, 0)])
def test_what_has_no_quantile_is_refused(p, df):
    with pytest.raises(ValueError):
        quantile(p, df)
