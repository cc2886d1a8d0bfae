"""What was measured on a floor plan, kept between runs: the same formula on the same plan needs no geometry again."""

from collections.abc import Mapping
from typing import Any

from checker.plan import Answers
from checker.plan.results import Measure, NoAnswer
from checker.quantities.missing import Missing, OutsideRange
from checker.quantities.registry import Quantity, Way
from checker.quantities.storeys import StoreyPlan
from checker.quantities.things import Thing
from checker.quantities.working import Drawn


def measured(known: Quantity, way: Way, plan: StoreyPlan, inputs: Mapping[str, Any]) -> Any:
    """The result of a formula that reads a floor plan, kept or made. Raises as the formula does."""
    if plan.kept is None:
        return way.function(**inputs)
    return _kept(plan.kept, [known.name, way.formula, _plain(dict(inputs))], way, inputs)


def _kept(answers: Answers, question: list[Any], way: Way, inputs: Mapping[str, Any]) -> Any:
    held = answers.held(question)
    if isinstance(held, NoAnswer):
        raise OutsideRange(held.says)
    if isinstance(held, Measure):
        return _result(held)
    try:
        result = way.function(**inputs)
    except OutsideRange as none:
        answers.keep(question, NoAnswer(OutsideRange.__name__, str(none), None))
        raise
    answers.keep(question, _measure(result))
    return result


def _measure(result: Any) -> Measure:
    if isinstance(result, Drawn):
        return Measure(
            float(result), result.what, result.room, result.points, result.ends_at, result.targets, result.between
        )
    return Measure(result)


def _result(held: Measure) -> Any:
    if not held.what:
        return held.value
    return Drawn(held.value, held.what, held.room, held.points, held.ends_at, held.targets, held.between)


def _plain(value: Any) -> Any:
    """An input as a question holds it: things by what they are called, gaps by what is missing."""
    match value:
        case StoreyPlan():
            return [
                value.plan, value.room, value.reading, [str(gap) for gap in value.floor_gaps],
                sorted(value.no_exits), sorted(value.doubtful_exits), [str(gap) for gap in value.way_gaps],
                sorted(value.leaf_gaps), [str(gap) for gap in value.exit_gaps],
            ]  # fmt: skip
        case Thing():
            return value.path
        case Missing():
            return ["missing", str(value)]
        case dict():
            return {name: _plain(each) for name, each in value.items()}
        case tuple() | list():
            return [_plain(each) for each in value]
    return value
