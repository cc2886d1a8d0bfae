import json

import pytest

from checker.findings.result_json import result_schema
from checker.report import FORMATS, Drawing
from checker.report.json_ import render
from tests.report.samples import SITES, hostile_site, metric_site, us_site


@pytest.mark.parametrize("site", SITES)
def test_the_schema_of_a_result_holds_what_is_written(site: str) -> None:
    from jsonschema import Draft202012Validator

    schema = result_schema()
    errors = list(Draft202012Validator(schema).iter_errors(json.loads(render(SITES[site]()))))
    assert errors == []


@pytest.mark.parametrize("site", SITES)
def test_same_result_same_bytes(site: str) -> None:
    assert render(SITES[site]()) == render(SITES[site]())


def test_keys_stand_in_the_order_of_the_model_under_their_outside_names() -> None:
    written = json.loads(render(us_site()))
    assert list(written) == list(result_schema()["properties"])
    assert list(written["valid"]) == ["from", "until"]


def test_numbers_are_numbers_answers_are_answers() -> None:
    walk, *_, charged, _ = json.loads(render(us_site()))["findings"]
    assert walk["measured"] == {"value": 18.5928, "unit": "m", "kind": "length", "as_written": None}
    assert charged["measured"]["value"] is True


def test_several_sites_are_an_object_a_line() -> None:
    text = FORMATS["json"]([us_site(), metric_site()], Drawing())
    assert [json.loads(line)["site"]["id"] for line in text.splitlines()] == ["mill-yard", "quay-street"]


def test_nothing_a_terminal_obeys_stands_in_the_text_and_nothing_is_lost() -> None:
    text = render(hostile_site())
    assert not set("\x1b\x07\x9b\u202e\u2028") & set(text)
    assert json.loads(text)["site"]["name"] == hostile_site().site.name
