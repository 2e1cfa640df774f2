"""Places of raw values, as lines and columns that editors count."""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.model.place import Position
from netaudit.plan.reading.problems import Problems
from netaudit.plan.reading.raw import Mapping, Positions
from netaudit.plan.reading.read import read

TEXT = "a: {b: [x, {c: y}]}\nd: z\n"


def test_lines_end_at_any_of_the_three_usual_ends() -> None:
    positions = Positions("a\nb\r\nc\rd")

    assert [Position(1, 1), Position(2, 1), Position(3, 1), Position(4, 1)] == [positions.at(n) for n in (0, 2, 5, 7)]


def test_a_column_counts_characters_not_bytes() -> None:
    assert Position(1, 4) == Positions("é🎞 x").at(3)


def test_a_location_leads_to_its_value_as_far_as_values_go() -> None:
    top = read(TEXT, Problems("")).spot

    assert ("y", TEXT.index("y"), ("a", "b", "2", "c")) == astuple(top.at(("a", "b", 1, "c")))
    assert ("x", TEXT.index("x"), ("a", "b", "1")) == astuple(top.at(("a", "b", 0, 0, "more")))
    assert () == top.at(("nothing",)).path


def test_what_is_not_there_is_an_empty_text_in_the_place_of_its_holder() -> None:
    top = read(TEXT, Problems("")).spot

    assert ("", 0, ("nothing",)) == astuple(top.below("nothing"))
    assert top.get("nothing") is None
    assert [] == list(top.below("d").entries())


def test_a_key_has_a_place_of_its_own() -> None:
    top = read(TEXT, Problems("")).spot

    assert TEXT.index("d:") == top.key_index("d")
    assert top.index == top.key_index("nothing")


def test_the_place_of_a_key_may_be_asked_while_keys_are_still_added() -> None:
    mapping = Mapping()
    places = []
    for number in range(9):
        mapping[str(number)] = ""
        if number % 3 == 2:
            places.append([mapping.place(key) for key in ("0", str(number - 1), str(number))])

    assert [[0, 1, 2], [0, 4, 5], [0, 7, 8]] == places


def test_asking_for_places_goes_over_each_key_once_however_often_it_is_asked() -> None:
    passed = []

    class Counted(Mapping):
        def __reversed__(self) -> Iterator[str]:
            for key in super().__reversed__():
                passed.append(key)
                yield key

        def __iter__(self) -> Iterator[str]:
            raise AssertionError("gone through from the beginning")

    mapping = Counted()
    for number in range(500):
        mapping[str(number)] = ""
        mapping.place(str(number // 2))

    assert 500 == len(passed)


def astuple(spot: object) -> tuple[object, ...]:
    return (getattr(spot, "raw", None), getattr(spot, "index", None), getattr(spot, "path", None))
