"""Text to tree. rule-engine reads the text; everything in its answer that is not on the white list is refused.

rule-engine is imported only when something is parsed: it takes longer to import than a site takes to check.
"""

import re
from functools import cache
from typing import Any, Final, NoReturn

from checker.rules.faults import Fault, Refused
from checker.rules.scan import LANGUAGE, look_over
from checker.rules.tree import MOST_NODES, OVER_A_LIST, Tree, walk

_PERIOD: Final = re.compile(r'("[^"]*"|\'[^\']*\')|\b(\d{1,5})[ \t\n]+(days?|weeks?|months?|years?)\b', re.ASCII)
_PERIOD_NAME: Final = re.compile(r"P(\d+)([dwmy])\2*")
"""What a period is called while it is parsed: as long as what was written, and no name of the language has capitals."""
_PERIOD_UNITS: Final = {"d": ("day", 0, 1), "w": ("week", 0, 7), "m": ("month", 1, 0), "y": ("year", 12, 0)}
_LOGIC: Final = {"and", "or"}
_CALC: Final = {"AddExpression": "add", "SubtractExpression": "sub"}


def parse(text: str) -> Tree:
    """The tree of an expression. Raises Refused when it is too large, unreadable, or uses what the language lacks."""
    look_over(text)
    import rule_engine

    try:
        rule = rule_engine.Rule(_with_periods_named(text), context=_context())
    except rule_engine.errors.RuleSyntaxError as error:
        token = error.token
        if token is None:
            raise Refused([Fault(len(text), "the expression ends too early", "the end", "the missing part")]) from None
        raise Refused([_syntax_fault(text, token)]) from None
    except rule_engine.errors.EngineError as error:
        raise Refused([Fault(0, "the expression cannot be read", error.message, "names, numbers and words")]) from None
    except RecursionError:
        raise Refused([Fault(0, "the expression is too large", "too many parts", f"at most {MOST_NODES}")]) from None
    except (ValueError, TypeError, ArithmeticError) as error:
        raise Refused([Fault(0, "the expression cannot be read", type(error).__name__, "a simpler one")]) from None
    tree = _tree(text, rule.statement.expression)
    if (nodes := sum(1 for _ in walk(tree))) > MOST_NODES:
        raise Refused([Fault(0, "the expression is too large", f"{nodes} parts", f"at most {MOST_NODES}")])
    return tree


@cache
def _context() -> Any:
    import rule_engine
    from rule_engine.builtins import Builtins

    context = rule_engine.Context()
    context.builtins = Builtins({})
    return context


def _with_periods_named(text: str) -> str:
    def named(found: re.Match[str]) -> str:
        return found[1] or f"P{found[2]}".ljust(len(found[0]), found[3][0])

    return _PERIOD.sub(named, text)


def _syntax_fault(text: str, token: Any) -> Fault:
    written = text[token.lexpos : token.lexpos + len(str(token.value))]
    return Fault(token.lexpos, "the expression cannot be read from here on", repr(written), "an operator or the end")


def _refuse(text: str, word: str, says: str, wanted: str) -> NoReturn:
    raise Refused([Fault(max(0, text.find(word)), says, word, wanted)])


def _tree(text: str, node: Any) -> Tree:
    """White list: every class that is not named here refuses the expression."""
    match type(node).__name__:
        case "LogicExpression" if node.type in _LOGIC:
            return [node.type, _tree(text, node.left), _tree(text, node.right)]
        case "UnaryExpression" if node.type == "not":
            return ["not", _tree(text, node.right)]
        case "UnaryExpression" if node.type == "uminus" and type(node.right).__name__ == "FloatExpression":
            return ["num", f"-{node.right.value}"]
        case "ComparisonExpression" | "ArithmeticComparisonExpression":
            return ["cmp", node.type, _tree(text, node.left), _tree(text, node.right)]
        case "AddExpression" | "SubtractExpression" as kind:
            return ["calc", _CALC[kind], _tree(text, node.left), _tree(text, node.right)]
        case "ArithmeticExpression" if node.type in ("mul", "tdiv"):
            return ["calc", "mul" if node.type == "mul" else "div", _tree(text, node.left), _tree(text, node.right)]
        case "ContainsExpression":
            return ["in", _tree(text, node.member), _words(text, node.container)]
        case "GetAttributeExpression" if not node.safe:
            return ["get", _tree(text, node.object), node.name]
        case "SymbolExpression" if node.scope is None:
            return _name(node.name)
        case "FloatExpression":
            return ["num", str(node.value)]
        case "StringExpression":
            return ["str", node.value]
        case "FunctionCallExpression":
            return _call(text, node)
        case "BooleanExpression":
            _refuse(text, text, "a comparison that is always the same says nothing", "a name on one side")
    return _off_the_list(text, node)


def _off_the_list(text: str, node: Any) -> NoReturn:
    if type(node).__name__ == "UnaryExpression":
        _refuse(text, "-", "a minus stands between numbers or before digits", "0 - NAME")
    _refuse(text, "[" if "[" in text else text, "this is not in the language", LANGUAGE)


def _name(name: str) -> Tree:
    found = _PERIOD_NAME.fullmatch(name)
    if found is None:
        return ["name", name]
    number, (unit, months, days) = int(found[1]), _PERIOD_UNITS[found[2]]
    return ["period", number * months, number * days, f"{number} {unit}{'' if number == 1 else 's'}"]


def _words(text: str, node: Any) -> list[str]:
    if type(node).__name__ != "ArrayExpression" or not node.value:
        _refuse(text, " in ", "`in` looks in a list of words", 'in ["one", "other"]')
    for member in node.value:
        if type(member).__name__ == "SymbolExpression":
            _refuse(text, member.name, "words stand in quotes", f'"{member.name}"')
    if any(type(member).__name__ != "StringExpression" for member in node.value):
        _refuse(text, " in ", "`in` looks in a list of words", "words in quotes only")
    return [member.value for member in node.value]


def _call(text: str, node: Any) -> Tree:
    function, arguments = _tree(text, node.function), list(node.arguments)
    match function:
        case ["name", "due"]:
            if len(arguments) != 2:
                _refuse(text, "due", "`due` takes a day and a period", "due(date, limit.every)")
            return ["due", _tree(text, arguments[0]), _tree(text, arguments[1])]
        case ["name", word] if word in OVER_A_LIST:
            return _over_a_list(text, word, arguments)
        case ["get", *_]:
            return ["call", function, [_tree(text, argument) for argument in arguments]]
        case ["name", word]:
            _refuse(text, word, "there is no function of this name", "due, all, any, count, sum or a quantity")
    _refuse(text, "(", "only a quantity or a table can be called", LANGUAGE)


def _over_a_list(text: str, word: str, arguments: list[Any]) -> Tree:
    if len(arguments) != 1 or type(arguments[0]).__name__ != "ComprehensionExpression":
        _refuse(text, word, f"`{word}` looks through one list", f"{word}([d.name for d in thing.list if condition])")
    node = arguments[0]
    condition = None if node.condition is None else _tree(text, node.condition)
    return [word, node.variable, _tree(text, node.iterable), condition, _tree(text, node.result)]
