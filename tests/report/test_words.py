from decimal import Decimal

import pytest

from checker.findings.result import Value
from checker.report.page import GLUE
from checker.report.words import (
    Country,
    compared,
    country_of,
    margin_words,
    operator_words,
    uncertainty_words,
    value_words,
)
from tests.report.samples import length, value

# 1 ft = 0.3048 m and 1 psi = 6894.757 Pa: NIST SP 811 (2008), appendix B.8, from memory.
PSI = "6894.757293168361"


@pytest.mark.parametrize(
    "its, beside, country, words",
    [
        (value(True, "answer"), None, "us", "yes"),
        (value(False, "answer"), None, "us", "no"),
        (value("workplaces", "word"), None, "us", "workplaces"),
        (value("2026-11-03", "date"), None, "us", "2026-11-03"),
        (value("0001-01-01", "date"), None, "us", "never"),
        (value("14 months", "period", as_written="14 months"), None, "metric", "14 months"),
        (length("3.6576", "12 ft"), None, "metric", "12 ft"),
        (length("3.6576"), None, "us", "12 ft"),
        (length("3.6576"), None, "metric", "3.658 m"),
        (length("0.0254"), None, "us", "1 in"),
        (length("0.02"), None, "metric", "20 mm"),
        (length("15.24"), length("15.24", "50 ft"), "metric", "50 ft"),
        (length("22.88"), length("22.86", "22.86 m"), "us", "22.88 m"),
        (value("0.70792116", "flow", "m3/s"), None, "us", "1500 cfm"),
        (value("0.5", "flow", "m3/s"), None, "metric", "1800 m3/h"),
        (value("298.15", "temperature", "K"), None, "us", "77 °F"),
        (value("298.15", "temperature", "K"), None, "metric", "25 °C"),
        (value("0.03", "ratio"), None, "us", "3 %"),
        (value(f"{Decimal(PSI) * 90}", "pressure_gauge", "Pa"), None, "us", "90 psi"),
    ],
)
def test_a_value_in_the_unit_of_whoever_reads_it(
    its: Value, beside: Value | None, country: Country, words: str
) -> None:
    assert value_words(its, beside, country).replace(GLUE, " ") == words


@pytest.mark.parametrize(
    "measured, limit, country, words",
    [
        (length("18.5928", "61 ft"), length("15.24", "50 ft"), "us", ("61 ft (18.59 m)", "50 ft (15.24 m)")),
        (length("18.5928"), length("15.24", "50 ft"), "us", ("61 ft (18.59 m)", "50 ft (15.24 m)")),
        (length("14.9", "14.9 m"), length("15.24", "50 ft"), "metric", ("14.9 m", "15.24 m (50 ft)")),
        (length("2.96", "2.96 m"), length("3", "3 m"), "metric", ("2.96 m", "3 m")),
        (None, length("3", "3 m"), "metric", (None, "3 m")),
        (None, length("15.24", "50 ft"), "us", (None, "50 ft (15.24 m)")),
        (length("22.88"), length("22.86"), "metric", ("22.88 m", "22.86 m")),
        (
            value("200000", "pressure_gauge", "Pa", "2 bar"),
            value(f"{Decimal(PSI) * 30}", "pressure_gauge", "Pa", "30 psi"),
            "us",
            ("2 bar", "2.068 bar (30 psi)"),
        ),
        (value(True, "answer"), value(True, "answer"), "us", ("yes", "yes")),
    ],
)
def test_two_values_are_compared_in_one_unit(
    measured: Value | None, limit: Value | None, country: Country, words: tuple[str, str]
) -> None:
    told = compared(measured, limit, country)
    assert tuple(one and one.replace(GLUE, " ") for one in told) == words


@pytest.mark.parametrize(
    "margin, measured, limit, operator, words",
    [
        (length("3.6576"), length("11.5824", "38 ft"), length("15.24", "50 ft"), "le", "12 ft to spare"),
        (length("-3.3528"), length("18.5928"), length("15.24", "50 ft"), "le", "11 ft too much"),
        (length("-0.04"), length("2.96", "2.96 m"), length("3", "3 m"), "ge", "0.04 m too little"),
        (length("0"), length("3", "3 m"), length("3", "3 m"), "ge", "nothing to spare"),
        (
            value("5", "temperature_difference", "K"),
            value("293.15", "temperature", "K", "68 °F"),
            None,
            "le",
            "9 °F to spare",
        ),
        (value("-2937600", "duration", "s"), value("2026-10-22", "date"), None, "ge", "34 days overdue"),
        (value("86400", "duration", "s"), value("2026-11-26", "date"), None, "ge", "1 day to spare"),
        (value("-86400", "duration", "s"), value("2026-11-26", "date"), None, "le", "1 day too late"),
    ],
)
def test_the_margin_says_which_way(
    margin: Value, measured: Value, limit: Value | None, operator: str, words: str
) -> None:
    assert margin_words(margin, measured, limit, operator, "us").replace(GLUE, " ") == words


@pytest.mark.parametrize(
    "plus_minus, its, country, words",
    [
        (length("0.0508"), length("18.5928", "61 ft"), "us", "2 in"),
        (length("0.003"), length("2.96", "2.96 m"), "metric", "3 mm"),
        (value("0.5", "current", "A"), value("14", "current", "A", "14 A"), "us", "0.5 A"),
        (value("5", "temperature_difference", "K"), value("293.15", "temperature", "K", "68 °F"), "us", "9 °F"),
        (value("0.1887789772800", "flow", "m3/s"), value("2.548516", "flow", "m3/s", "5400 cfm"), "us", "400 cfm"),
    ],
)
def test_an_uncertainty_in_a_unit_of_its_value(plus_minus: Value, its: Value, country: Country, words: str) -> None:
    assert uncertainty_words(plus_minus, its, country).replace(GLUE, " ") == words


@pytest.mark.parametrize(
    "operator, kind, words",
    [
        ("le", "length", "at most X"),
        ("lt", "length", "less than X"),
        ("ge", "length", "at least X"),
        ("gt", "length", "more than X"),
        ("eq", "number", "exactly X"),
        ("eq", "word", "X"),
        ("ne", "word", "anything but X"),
        ("ge", "date", "not before X"),
        ("le", "date", "no later than X"),
        (None, "answer", "X"),
    ],
)
def test_the_operator_in_words(operator: str | None, kind: str, words: str) -> None:
    assert operator_words(operator, "X", kind) == words


@pytest.mark.parametrize("region, country", [("us", "us"), ("us-ca", "us"), ("gb", "metric"), ("usher", "metric")])
def test_the_units_of_a_region(region: str, country: Country) -> None:
    assert country_of(region) == country
