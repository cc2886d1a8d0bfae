"""The evaluators that are measured: how each is given the rules, the facts, and is asked.

Each imports its library only when it is made ready, so that one that is not installed can be passed over.
"""

import decimal
import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any, Final

from checker.quantities import Missing
from checker.units import GRID
from tests.benchmarks import dialects, facts, rego
from tests.benchmarks.reference import Verdict
from tests.benchmarks.workload import GROUPS, LISTS, MEMBER, Rule, Site, field_names

_DOTS: Final = dialects.RULE_ENGINE
_BRACKETS: Final = dialects.RULE_ENGINE_ITEMS

Judge = Callable[[Any], list[Verdict]]
"""Facts in, what each rule says out."""


@dataclass(frozen=True)
class Peer:
    """One evaluator. `sites` is how many are judged in a round, so that no peer takes longer than the others."""

    title: str
    module: str
    """What must be importable."""
    sites: int
    facts: Callable[[Site], Any]
    ready: Callable[[list[Rule]], Judge]


def _ours(rules: list[Rule]) -> Judge:
    from checker.rules.compile import compile_trees
    from checker.rules.parse import parse

    trees = {str(number): parse(dialects.OURS.text(rule)) for number, rule in enumerate(rules)}
    functions = list(compile_trees(trees).values())

    def judge(site: Any) -> list[Verdict]:
        with decimal.localcontext(GRID):
            return [function(site, [])[0] for function in functions]

    return judge


def _python(number: Callable[[float], Any], gap: type[Exception]) -> Callable[[list[Rule]], Judge]:
    def ready(rules: list[Rule]) -> Judge:
        constants: dict[str, Any] = {}

        def written(value: float) -> str:
            name = f"k{len(constants)}"
            constants[name] = number(value)
            return name

        texts = [dialects.python(written).text(rule) for rule in rules]
        functions = [eval(f"lambda f: {text}", constants) for text in texts]
        return _each(functions, lambda function, site: function(site), gap)

    return ready


def _each(rules: list[Any], ask: Callable[[Any, Any], Any], gap: type[Exception]) -> Judge:
    """Every rule in turn; one that refuses to answer says nothing."""

    def judge(site: Any) -> list[Verdict]:
        found: list[Verdict] = []
        for rule in rules:
            try:
                found.append(ask(rule, site))
            except gap:
                found.append(None)
        return found

    return judge


def _rule_engine(dialect: dialects.Dialect, typed: bool = False) -> Callable[[list[Rule]], Judge]:
    def ready(rules: list[Rule]) -> Judge:
        import rule_engine

        context = _typed_context() if typed else rule_engine.Context()
        read = [rule_engine.Rule(dialect.text(rule), context=context) for rule in rules]
        gap = facts.Absent if typed else rule_engine.errors.EngineError
        return _each(read, lambda rule, site: rule.evaluate(site), gap)

    return ready


def _typed_context() -> Any:
    import rule_engine
    from rule_engine import DataType

    types = {"n": DataType.FLOAT, "w": DataType.STRING, "a": DataType.BOOLEAN}

    def thing(name: str, attributes: dict[str, Any]) -> Any:
        return DataType.OBJECT(name, attributes=attributes, accessor=facts.read_seen)

    def fields(written: str) -> dict[str, Any]:
        return {name: types[kind] for name, kind in field_names(written)}

    known: dict[str, Any] = {
        group: thing(group, {name: thing(f"{group}_{name}", fields(written)) for name, written in inside.items()})
        for group, inside in GROUPS.items()
    }
    known |= {name: DataType.ARRAY(thing(f"{name}_member", fields(MEMBER))) for name in LISTS}
    resolver = rule_engine.type_resolver_from_dict(known)
    return rule_engine.Context(type_resolver=resolver, resolver=lambda site, name: site.known[name])


def _cel_python(rules: list[Rule]) -> Judge:
    import celpy
    from celpy.evaluation import CELEvalError

    environment = celpy.Environment()
    programs = [environment.program(environment.compile(dialects.CEL.text(rule))) for rule in rules]
    return _each(programs, lambda program, site: bool(program.evaluate(site)), CELEvalError)


def _common_expression_language(rules: list[Rule]) -> Judge:
    import cel

    programs = [cel.compile(dialects.CEL.text(rule)) for rule in rules]
    return _each(programs, lambda program, site: program.execute(site), Exception)


def _datalogic(rules: list[Rule]) -> Judge:
    import datalogic_py

    engine = datalogic_py.Engine()
    session = engine.session()
    compiled = [engine.compile(dialects.json_logic(rule)) for rule in rules]
    return _each(compiled, session.evaluate_data, datalogic_py.DataLogicError)


def _regorus(rules: list[Rule]) -> Judge:
    import regorus

    engine = regorus.Engine()
    engine.add_policy("bench.rego", rego.policy(rules))
    numbers = [str(number) for number in range(len(rules))]

    def judge(site: str) -> list[Verdict]:
        engine.set_input_json(site)
        said = engine.eval_query(rego.VERDICTS)["result"][0]["expressions"][0]["value"]
        return [said.get(number) for number in numbers]

    return judge


def _exact(number: float) -> Decimal:
    return Decimal(repr(number))


PEERS: Final[Mapping[str, Peer]] = {
    "plain": Peer("plain Python, floats in dictionaries", "json", 1000, facts.as_is, _python(float, KeyError)),
    "same-facts": Peer("plain Python, the facts of ours", "json", 1000, facts.records, _python(_exact, Missing)),
    "ours": Peer("ours: three values, all sides and parts", "checker", 2000, facts.records, _ours),
    "datalogic": Peer("datalogic-py (JsonLogic)", "datalogic_py", 1000, facts.datalogic_handle, _datalogic),
    "cel": Peer("common-expression-language (CEL)", "cel", 200, facts.cel_context, _common_expression_language),
    "regorus": Peer("celine-regorus (Rego)", "regorus", 60, json.dumps, _regorus),
    "typed": Peer("rule-engine, typed objects", "rule_engine", 60, facts.seen, _rule_engine(_DOTS, typed=True)),
    "items": Peer("rule-engine, names in brackets", "rule_engine", 20, facts.as_is, _rule_engine(_BRACKETS)),
    "as-is": Peer("rule-engine, plain dictionaries", "rule_engine", 8, facts.as_is, _rule_engine(_DOTS)),
    "celpy": Peer("cel-python (CEL)", "celpy", 6, facts.celpy_values, _cel_python),
}
