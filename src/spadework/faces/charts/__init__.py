"""Pictures as SVG text in our own forms, with words for whoever cannot see them."""

from spadework.faces.charts.baskets import basket_holds, baskets
from spadework.faces.charts.course_reeds import course_reeds
from spadework.faces.charts.leaf_window import leaf_window
from spadework.faces.charts.part_plant import part_plant
from spadework.faces.charts.plan import plan_marks, plan_picture
from spadework.faces.charts.plan_change import changing_picture
from spadework.faces.charts.range_bar import range_bar
from spadework.faces.charts.seed_row import seed_row
from spadework.faces.charts.seedling_reeds import seedling_reeds
from spadework.faces.charts.sign_drawings import sign_drawing
from spadework.faces.charts.soil_trace import soil_trace
from spadework.faces.charts.ten_leaves import ten_leaves
from spadework.faces.charts.waiting_drops import waiting_drops
from spadework.faces.charts.water_standing import water_standing
from spadework.faces.charts.weeks_ahead import weeks_ahead
from spadework.faces.charts.work_weeks import hours_said, work_weeks
from spadework.faces.charts.year_dots import year_dots

__all__ = [
    "basket_holds",
    "baskets",
    "changing_picture",
    "course_reeds",
    "hours_said",
    "leaf_window",
    "part_plant",
    "plan_marks",
    "plan_picture",
    "range_bar",
    "seed_row",
    "seedling_reeds",
    "sign_drawing",
    "soil_trace",
    "ten_leaves",
    "waiting_drops",
    "water_standing",
    "weeks_ahead",
    "work_weeks",
    "year_dots",
]
