"""Propositional logic in two forms behind one interface: clauses for a SAT solver, diagrams for counting.

What the variables stand for is left to ``space``.
"""

from collections.abc import Iterable, Sequence
from typing import Protocol, TypeVar

from dd.autoref import BDD, Function
from pysat.card import ITotalizer
from pysat.solvers import Solver

F = TypeVar("F")


class Algebra(Protocol[F]):
    """Builds formulas of some form ``F``."""

    def atom(self, name: str) -> F:
        """Return a new variable."""

    def both(self, parts: Iterable[F]) -> F:
        """Return the formula that holds where all parts do; of none, always."""

    def either(self, parts: Iterable[F]) -> F:
        """Return the formula that holds where any part does; of none, never."""

    def negate(self, part: F) -> F:
        """Return the formula that holds where ``part`` does not."""


class Clauses:
    """Formulas as literals of a SAT solver; every compound gets a variable of its own (Tseitin)."""

    def __init__(self) -> None:
        self._solver = Solver(name="cadical153")
        self._last = 1
        self._solver.add_clause([1])  # variable 1 is "true"
        self._compounds: dict[tuple[int, ...], int] = {}
        self._counters: dict[tuple[int, ...], list[int]] = {}

    def atom(self, name: str) -> int:
        """Return a new variable; the name is the caller's business."""
        self._last += 1
        return self._last

    def both(self, parts: Iterable[int]) -> int:
        """Return a literal equivalent to the conjunction."""
        kept = sorted(set(parts) - {1})
        if -1 in kept or any(-part in kept for part in kept):
            return -1
        if len(kept) < 2:
            return kept[0] if kept else 1
        key = tuple(kept)
        if key not in self._compounds:
            whole = self._compounds[key] = self.atom("")
            for part in kept:
                self._solver.add_clause([-whole, part])
            self._solver.add_clause([whole, *(-part for part in kept)])
        return self._compounds[key]

    def either(self, parts: Iterable[int]) -> int:
        """Return a literal equivalent to the disjunction."""
        return -self.both(-part for part in parts)

    def negate(self, part: int) -> int:
        """Return the opposite literal."""
        return -part

    def require(self, formula: int) -> None:
        """Let ``formula`` hold in every model from now on."""
        self._solver.add_clause([formula])

    def model(self, *assumed: int) -> frozenset[int] | None:
        """Return the true variables of some model in which all of ``assumed`` hold, or None."""
        if not self._solver.solve(assumptions=assumed):
            return None
        return frozenset(literal for literal in self._solver.get_model() if literal > 0)

    def smallest(self, wanted: Sequence[int], few: Sequence[int]) -> frozenset[int] | None:
        """Return the model with fewest of ``few`` true, and of those the first in their order.

        Args:
            wanted: Literals that must hold.
            few: Variables to keep false where possible; earlier ones are given up last.

        Returns:
            The true variables, the same for the same input, or None where nothing satisfies ``wanted``.
        """
        best = self.model(*wanted)
        if best is None:
            return None
        at_most = self._counter(tuple(few))
        count = len(best & set(few))
        while count and (fewer := self.model(*wanted, -at_most[count - 1])) is not None:
            best = fewer
            count = len(best & set(few))
        bound = [-at_most[count]] if count < len(at_most) else []
        return self._first_in_order(wanted, few, bound)

    def _counter(self, few: tuple[int, ...]) -> list[int]:
        """Return variables of which number n holds wherever more than n of ``few`` do."""
        if few not in self._counters:
            totals = ITotalizer(lits=list(few), ubound=len(few), top_id=self._last)
            self._last = totals.top_id
            for clause in totals.cnf.clauses:
                self._solver.add_clause(clause)
            self._counters[few] = list(totals.rhs)
            totals.delete()
        return self._counters[few]

    def _first_in_order(self, wanted: Sequence[int], few: Sequence[int], bound: list[int]) -> frozenset[int] | None:
        fixed = [*wanted, *bound]
        for variable in reversed(few):
            fixed.append(-variable if self.model(*fixed, -variable) is not None else variable)
        return self.model(*fixed)


class Diagrams:
    """Formulas as reduced ordered binary decision diagrams, for exact counts."""

    def __init__(self) -> None:
        self._bdd = BDD()
        self.names: list[str] = []

    def atom(self, name: str) -> Function:
        """Declare a variable of this name."""
        self.names.append(name)
        self._bdd.declare(name)
        return self._bdd.var(name)

    def both(self, parts: Iterable[Function]) -> Function:
        """Return the conjunction."""
        whole = self._bdd.true
        for part in parts:
            whole &= part
        return whole

    def either(self, parts: Iterable[Function]) -> Function:
        """Return the disjunction."""
        whole = self._bdd.false
        for part in parts:
            whole |= part
        return whole

    def negate(self, part: Function) -> Function:
        """Return the complement."""
        return ~part

    def count(self, formula: Function) -> int:
        """Return in how many assignments of all declared variables ``formula`` holds."""
        return int(self._bdd.count(formula, nvars=len(self.names)))
