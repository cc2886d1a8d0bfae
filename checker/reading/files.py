"""A text or a file, checked as a whole before it is read: size, encoding, characters, and that there is something."""

import codecs
import contextlib
import os
import stat
from pathlib import Path

from checker.reading.document import Document
from checker.reading.json_tree import marks, read_json
from checker.reading.problems import TOP, Mark, Problem, Unreadable
from checker.reading.scalars import unprintable
from checker.reading.yaml_tree import read_yaml
from checker.written_files import LARGEST


def read_text(text: bytes | str, file: str) -> Document:
    """The document a text holds: JSON if the name ends in .json, else YAML. Raises Unreadable with all problems."""
    plain = _plain_text(text, file)
    is_json = file.lower().endswith(".json")
    tree = (read_json if is_json else read_yaml)(plain, file)
    if not tree.problems and tree.data is None:
        raise _refusal(file, "the file says nothing", "", "its keys and values")
    if tree.problems:
        raise Unreadable(tree.problems)
    return Document(file, tree.data, plain, tree.places)


def read_file(path: Path | str) -> Document:
    """The document in a file; its name in every message is the path as given. Raises Unreadable."""
    return read_text(content_of(path), str(path))


def content_of(path: Path | str) -> bytes:
    """The bytes of a file, at most one more than a file may have. Raises Unreadable where it cannot be opened."""
    file, name, size = str(path), str(path) or ".", 0
    with contextlib.suppress(OSError, ValueError):  # opening it tells why
        seen = os.stat(name)
        size = min(seen.st_size, LARGEST)
        if stat.S_ISDIR(seen.st_mode):
            raise _refusal(file, "this is a folder", "", "the name of a file")
        if not stat.S_ISREG(seen.st_mode):
            raise _refusal(file, "this is no ordinary file", "", "the name of a file")
    try:
        with open(name, "rb") as stream:
            content = stream.read(size + 1)  # room for the largest takes longer than to read most
            return content if len(content) <= size else content + stream.read(LARGEST - size)
    except FileNotFoundError:
        raise _refusal(file, "there is no such file", "", "the name of a file that is there") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise _refusal(file, f"the file cannot be opened ({reason})", "", "") from None


def _plain_text(text: bytes | str, file: str) -> str:
    content = text if isinstance(text, bytes) else text.encode("utf-8", "surrogatepass")
    if len(content) > LARGEST:
        raise _refusal(file, f"a file holds at most {LARGEST} bytes", "a larger one", "several files")
    content = content.removeprefix(codecs.BOM_UTF8)
    try:
        plain = content.decode("utf-8")
    except UnicodeDecodeError as error:
        before = content[: error.start].decode("utf-8")
        found = f"the byte {content[error.start]:#04x}"
        raise _refusal(file, "this is not UTF-8 text", found, "the file as UTF-8", marks(before)(len(before))) from None
    if match := unprintable(plain):
        found = f"U+{ord(match[0]):04X}"
        mark = marks(plain)(match.start())
        raise _refusal(file, "this character does not belong in a text", found, "the text without it", mark)
    return plain


def _refusal(file: str, says: str, found: str, wanted: str, mark: Mark = TOP) -> Unreadable:
    return Unreadable((Problem(file, mark.line, mark.column, "", found, wanted, says),))
