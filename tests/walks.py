"""Drawn cases of tasks on a plan of beds, all of it invented, and the best walk by an exact solver."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from spadework.round.choose import Task

METRES_A_MINUTE = 60.0
CHANGE_MIN = 0.15


def drawn_case(tasks: int, beds: int, *, seed: int) -> tuple[list[Task], NDArray[np.float64]]:
    """So many tasks at beds of a plot of 25 by 20 m; place 0 is the gate. Distances along the paths."""
    luck = np.random.default_rng(seed)
    at = np.column_stack([luck.uniform(0.0, 25.0, beds + 1), luck.uniform(0.0, 20.0, beds + 1)])
    at[0] = 0.0
    distance = np.abs(at[:, None, :] - at[None, :, :]).sum(axis=2) / METRES_A_MINUTE + CHANGE_MIN
    np.fill_diagonal(distance, 0.0)
    drawn = [
        Task(
            id=f"t{number}",
            place=int(luck.integers(1, beds + 1)),
            minutes=float(np.round(luck.uniform(0.5, 8.0) * 60.0) / 60.0),
            value=float(np.round(luck.exponential(1.0), 3)),
        )
        for number in range(tasks)
    ]
    return drawn, distance


def exact_value(
    tasks: list[Task], distance: NDArray[np.float64], budget: float, *, seconds: float = 20.0
) -> tuple[float, float]:
    """Value of the best walk, and the bound proven, by CP-SAT on whole seconds rounded down."""
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    places = distance.shape[0]
    metres = np.floor(distance * 60.0).astype(int)
    visit = {0: model.new_constant(1)}
    arcs = []
    for place in range(1, places):
        visit[place] = model.new_bool_var(f"v{place}")
        arcs.append((place, place, visit[place].negated()))
    steps = []
    for one in range(places):
        for other in range(places):
            if one != other:
                literal = model.new_bool_var(f"a{one}_{other}")
                arcs.append((one, other, literal))
                steps.append(int(metres[one, other]) * literal)
    model.add_circuit(arcs)
    done = [model.new_bool_var(task.id) for task in tasks]
    for chosen, task in zip(done, tasks, strict=True):
        model.add_implication(chosen, visit[task.place])
    service = [int(np.floor(task.minutes * 60.0)) * chosen for chosen, task in zip(done, tasks, strict=True)]
    model.add(sum(steps) + sum(service) <= int(budget * 60.0))
    model.maximize(sum(round(task.value * 1000) * chosen for chosen, task in zip(done, tasks, strict=True)))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 2
    solver.parameters.max_time_in_seconds = seconds
    status = solver.solve(model)
    assert status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    return solver.objective_value / 1000.0, solver.best_objective_bound / 1000.0
