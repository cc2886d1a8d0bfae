"""YAML as strictly as we read it: only mappings, lists and scalars of one document, built from the parser's events."""

from typing import Any

from checker.reading.problems import Mark, Problem
from checker.reading.scalars import NotHeld, plain
from checker.reading.tree import DEEPEST, Stop, Tree


def read_yaml(text: str, file: str) -> Tree:
    """The tree of the text, with every problem found up to the first fault of syntax."""
    import yaml

    tree = Tree(file)
    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)(text)
    try:
        _build(tree, iter(loader.get_event, None), yaml)
    except Stop:
        pass
    except yaml.MarkedYAMLError as error:
        tree.problems.append(_syntax(error, text, file))
    finally:
        loader.dispose()
    return tree


def _build(tree: Tree, events: Any, yaml: Any) -> None:
    documents = 0
    for event in events:
        kind = type(event)
        if kind is yaml.ScalarEvent:
            mark = event.start_mark
            _scalar(tree, event, Mark(mark.line + 1, mark.column + 1))
        elif kind is yaml.MappingStartEvent or kind is yaml.SequenceStartEvent:
            mark = _mark(event)
            if event.tag or event.anchor:
                _decoration(tree, event, mark)
            tree.open(mark, {} if kind is yaml.MappingStartEvent else [])
        elif kind is yaml.MappingEndEvent or kind is yaml.SequenceEndEvent:
            tree.close()
        elif kind is yaml.AliasEvent:
            _alias(tree, event.anchor, _mark(event))
        elif kind is yaml.DocumentStartEvent:
            documents += 1
            if documents > 1:
                tree.blame(_mark(event), "a file holds one document", "a second one after ---", "a file for each")
                raise Stop


def _scalar(tree: Tree, event: Any, mark: Mark) -> None:
    if event.tag or event.anchor:
        _decoration(tree, event, mark)
    text = event.value
    if event.style:
        tree.key(mark, text) if tree.wants_key else tree.text(mark, text)
        return
    try:
        value = plain(text)
    except NotHeld as refusal:
        if tree.wants_key:
            tree.no_key(mark, str(refusal), text, refusal.wanted, text)
        else:
            tree.blame(mark, str(refusal), text, refusal.wanted)
            tree.add(mark, None)
        return
    if not tree.wants_key:
        tree.add(mark, value)
    elif text == "<<":
        tree.no_key(mark, "keys are not merged in from elsewhere", text, "the keys themselves", text)
    elif isinstance(value, str):
        tree.key(mark, value)
    else:
        wanted = f'"{text}" in quotes if the word is meant' if text else "a word"
        tree.no_key(mark, "a key is a word", text or "nothing", wanted, text)


def _decoration(tree: Tree, event: Any, mark: Mark) -> None:
    if event.anchor:
        tree.blame(mark, "names for repeated parts are not read", f"&{event.anchor}", "the value without it")
    if event.tag:
        tag = event.tag.replace("tag:yaml.org,2002:", "!!")
        tree.blame(mark, "types are not named in a file", tag, "the value without it")


def _alias(tree: Tree, name: str, mark: Mark) -> None:
    says, found, wanted = "repeats of another part are not read", f"*{name}", "the value itself, or the text in quotes"
    if tree.wants_key:
        tree.no_key(mark, says, found, wanted)
    else:
        tree.blame(mark, says, found, wanted)
        tree.add(mark, None)


def _mark(event: Any) -> Mark:
    mark = event.start_mark
    return Mark(mark.line + 1, mark.column + 1)


_HINTS = (
    ("nesting depth", f"a file is at most {DEEPEST} levels deep", "fewer levels"),
    ("mapping values", "a key cannot start here", "a text with a colon in quotes, a key on a line of its own"),
    ("expected ':'", "a key lacks its colon", "the key, a colon, a space and the value"),
    ("cannot start", "a value cannot start with this character", "the text in quotes"),
    ("quoted scalar found unexpected end", "this text in quotes does not end", "the closing quote"),
    ("quoted scalar", r"a \ stands for nothing here", r"\\ for one \, or single quotes"),
    ("flow", "a bracket is not closed, or a comma is missing", "commas between the values, and both brackets"),
    ("block", "this line is not as far in as its neighbours", "as many spaces as the lines beside it have"),
    ("alias", "a * starts a repeat of another part, which is not read", "the text in quotes"),
    ("anchor", "an & names a part for repeats, which are not read", "the text in quotes"),
    ("directive", "a % cannot start a line", "the text in quotes"),
)


def _syntax(error: Any, text: str, file: str) -> Problem:
    said = " ".join(filter(None, (error.context, error.problem)))
    unclosed = "quoted scalar found unexpected end" in said and error.context_mark
    mark = error.context_mark if unclosed else error.problem_mark
    lines = text.splitlines()
    rest = lines[mark.line][mark.column :] if mark.line < len(lines) else None
    if rest and rest[0] == "\t":
        says, wanted = "a tab cannot set a line in", "spaces"
    else:
        says, wanted = next((hint[1:] for hint in _HINTS if hint[0] in said), ("this is not YAML", ""))
    found = "the end of the file" if rest is None else rest.strip() or "the end of the line"
    return Problem(file, mark.line + 1, mark.column + 1, "", found, wanted, f"{says} (the parser: {said})")
