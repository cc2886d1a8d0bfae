"""The one strict reader: text in; values with line and column, or all problems with their wording, out."""

from checker.reading.document import Document, spell
from checker.reading.files import content_of, read_file, read_text
from checker.reading.problems import Mark, Problem, Unreadable

__all__ = ["Document", "Mark", "Problem", "Unreadable", "content_of", "read_file", "read_text", "spell"]
