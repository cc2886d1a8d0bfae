"""Ratings as labels print them; the forms of UL 711, EN 3-7 and AS/NZS 1850 are from memory, to be confirmed."""

import pytest

from checker.site.ratings import Rating, UnreadableRating, read_rating


@pytest.mark.parametrize(
    ("text", "system", "rating"),
    [
        ("4-A:80-B:C", "UL 711", Rating("UL 711", a=4, b=80, c=True)),
        ("4A:80B:C", "UL 711", Rating("UL 711", a=4, b=80, c=True)),
        ("2A10BC", "UL 711", Rating("UL 711", a=2, b=10, c=True)),
        ("10-B:C", "UL 711", Rating("UL 711", b=10, c=True)),
        ("2-A", "UL 711", Rating("UL 711", a=2)),
        ("2-A:K", "UL 711", Rating("UL 711", a=2, k=True)),
        ("D", "UL 711", Rating("UL 711", d=True)),
        ("21A 113B C", "EN 3", Rating("EN 3", a=21, b=113, c=True)),
        ("21A/113B", "EN 3", Rating("EN 3", a=21, b=113)),
        ("43 A, 233 B", "EN 3", Rating("EN 3", a=43, b=233)),
        ("13A 75F", "EN 3", Rating("EN 3", a=13, f=75)),
        ("89B", "EN 3", Rating("EN 3", b=89)),
        ("4A:60B:E", "AS/NZS 1850", Rating("AS/NZS 1850", a=4, b=60, e=True)),
    ],
)
def test_a_label_is_read(text: str, system: str, rating: Rating) -> None:
    assert read_rating(text, system) == rating


@pytest.mark.parametrize(
    ("text", "system", "says"),
    [
        ("", "UL 711", "This is no rating of UL 711"),
        ("ABC", "UL 711", "Class A of UL 711 comes with a number"),
        ("4-a", "UL 711", "This is no rating of UL 711"),
        ("0-A", "UL 711", "This is no rating of UL 711"),
        ("4-A:80-B:20-C", "UL 711", "Class C of UL 711 comes without a number"),
        ("4-A:4-A", "UL 711", "Class A stands here twice"),
        ("75F", "UL 711", "UL 711 has no class F"),
        ("21A K", "EN 3", "EN 3 has no class K"),
        ("4-A:60-B:E", "UL 711", "UL 711 has no class E"),
        ("4A:60B:5E", "AS/NZS 1850", "Class E of AS/NZS 1850 comes without a number"),
        ("6 kg powder", "EN 3", "This is no rating of EN 3"),
        ("21A", "AS 1850", "AS 1850 is no system of ratings known here"),
    ],
)
def test_what_no_label_prints_is_refused(text: str, system: str, says: str) -> None:
    with pytest.raises(UnreadableRating) as caught:
        read_rating(text, system)
    assert caught.value.says == says
