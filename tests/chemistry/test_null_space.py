"""The null space against SymPy's exact matrices, the extreme rays against their definition."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sympy import QQ, Matrix
from sympy.polys.matrices import DomainMatrix

from manualgen.chemistry.null_space import (
    MOST_RAYS,
    extreme_rays,
    independent,
    null_space,
)

entries = st.integers(-6, 6)
matrices = st.integers(1, 6).flatmap(
    lambda width: st.lists(
        st.lists(entries, min_size=width, max_size=width), min_size=1, max_size=6
    )
)


@given(matrices)
def test_the_null_space_is_that_of_an_exact_matrix_over_the_rationals(
    rows: list[list[int]],
) -> None:
    width = len(rows[0])
    ours = null_space(rows, width)
    theirs = DomainMatrix.from_list(rows, QQ).nullspace()
    assert len(ours) == theirs.shape[0]
    both = [list(v) for v in ours] + theirs.to_Matrix().tolist()
    assert not both or Matrix(both).rank() == len(ours)


@given(matrices)
def test_each_vector_of_the_null_space_is_sent_to_zero(rows: list[list[int]]) -> None:
    for vector in null_space(rows, len(rows[0])):
        assert any(vector)
        assert all(_product(row, vector) == 0 for row in rows)


@given(matrices)
def test_extreme_rays_are_reactions_that_cannot_do_without_a_species(
    rows: list[list[int]],
) -> None:
    width = len(rows[0])
    rays = extreme_rays(rows, width)
    for ray in rays:
        assert min(ray) >= 0
        assert all(_product(row, ray) == 0 for row in rows)
        used = [i for i, entry in enumerate(ray) if entry]
        narrowed = [[row[i] for i in used] for row in rows]
        assert len(null_space(narrowed, len(used))) == 1


@given(matrices, st.data())
def test_every_reaction_is_a_sum_of_extreme_rays(
    rows: list[list[int]], data: st.DataObject
) -> None:
    """So no species of a reaction is missing from all of the rays."""
    rays = extreme_rays(rows, len(rows[0]))
    basis = null_space(rows, len(rows[0]))
    weights = data.draw(
        st.lists(st.integers(-3, 3), min_size=len(basis), max_size=len(basis))
    )
    reaction = [
        sum(w * v[i] for w, v in zip(weights, basis, strict=True))
        for i in range(len(rows[0]))
    ]
    if min(reaction) >= 0:
        used = {i for i, entry in enumerate(reaction) if entry}
        assert used <= {i for ray in rays for i, entry in enumerate(ray) if entry}


@pytest.mark.parametrize("width", [40, 100])
def test_a_search_that_would_not_end_gives_up(width: int) -> None:
    """Twenty species of one element on either side pair in 400 ways, and so on."""
    row = [1] * (width // 2) + [-1] * (width // 2)
    assert len(row) ** 2 // 4 > MOST_RAYS
    assert extreme_rays([row], width) == ()


@pytest.mark.parametrize(
    ("vectors", "kept"),
    [
        ([(1, 0), (2, 0), (0, 1), (1, 1)], ((1, 0), (0, 1))),
        ([], ()),
    ],
)
def test_only_vectors_that_add_a_dimension_are_independent(
    vectors: list[tuple[int, ...]], kept: tuple[tuple[int, ...], ...]
) -> None:
    assert independent(vectors) == kept


def _product(row: list[int], vector: tuple[int, ...]) -> int:
    return sum(a * b for a, b in zip(row, vector, strict=True))
