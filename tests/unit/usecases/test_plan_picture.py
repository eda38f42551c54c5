"""The plan drawn with letters."""

from __future__ import annotations

from spadework.garden.lay_out import lay_out
from spadework.usecases.plan_picture import COLUMNS, LINES, draw_plan


def test_beds_stand_where_they_lie() -> None:
    beds = lay_out(["2 beds 1 x 2 m, paths 1 m", "box 1 x 2 m named North, 1 m north of them"]).beds
    picture = draw_plan(beds, "metric")
    rows = {
        name: next(i for i, line in enumerate(picture.lines) if name in line) for name in ("North", " 1 ")
    }
    assert rows["North"] < rows[" 1 "]
    # Middles of Bed 1 and the box: 3 m apart, 2 m of bed and 1 m of path.
    assert abs((rows[" 1 "] - rows["North"]) * picture.line_m - 3.0) <= picture.line_m
    line = picture.lines[rows[" 1 "]]
    assert abs((line.index(" 2 ") - line.index(" 1 ")) * picture.column_m - 2.0) <= 2 * picture.column_m


def test_a_great_plot_fits_the_screen() -> None:
    beds = lay_out(["40 beds 1.2 x 10 m in 5 rows", "a tunnel 8 x 40 m 30 m east of them"]).beds
    picture = draw_plan(beds, "metric")
    assert len(picture.lines) <= LINES + 1
    assert max(map(len, picture.lines)) <= COLUMNS + 1


def test_marks_are_told_apart_and_in_the_legend() -> None:
    beds = lay_out(
        ["a tunnel 3 x 6 m", "3 beds 0.8 x 5 m in the tunnel", "4 tubs 40 cm across", "12 beds", "long bed",
         "bed 1 x 2 m named Little Bend", "bed 1 x 2 m named Lower Bank", "bed 2 x 5 m turned 30 degrees"]
    ).beds  # fmt: skip
    picture = draw_plan(beds, "us")
    marks = [row.mark for row in picture.legend]
    assert len(set(marks)) == len(marks)
    assert {"T1–T3", "t1–t4", "1–12", "13", "LB", "LB2", "LB3"} <= set(marks)
    assert "15.7 in across, tub" in " ".join(row.about for row in picture.legend)
    assert any("░" in line for line in picture.lines)


def test_shelves_are_not_on_the_ground() -> None:
    picture = draw_plan(lay_out(["seed shelf indoors"]).beds, "metric")
    assert picture.lines == ()
    assert picture.legend[0].about.endswith("indoors")
