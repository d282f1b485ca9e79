"""Charts hold the values of the table they stand beside."""

from functools import lru_cache
from pathlib import Path

from generator.model.manual import Manual
from generator.model.numbers import DataTable
from generator.pipeline.examining import examine_van

ROOT = Path(__file__).parents[2]


@lru_cache(maxsize=6)
def manual_of(van: str) -> Manual:
    manual = examine_van(ROOT, Path(f"van_specs/vans/{van}.yaml")).manual
    assert manual is not None
    return manual


def table_of(van: str, id: str) -> DataTable:
    table = manual_of(van).values[f"table/{id}"]
    assert isinstance(table, DataTable)
    return table


def test_ball_load_by_state_of_the_trip_with_its_limit() -> None:
    table = table_of("samphire-0077", "ball-load-states")
    assert table.chart is not None
    assert [(bar.label, bar.shown) for bar in table.chart.bars] == [row[:2] for row in table.rows]
    assert all(bar.shown == f"{-(-bar.value // 1):.0f} kg" for bar in table.chart.bars)  # rounded up
    assert [limit.shown for limit in table.chart.limits] == ["200 kg"]


def test_battery_days_by_month() -> None:
    table = table_of("samphire-0077", "solar-months")
    assert table.chart is not None
    assert [(bar.label, bar.shown) for bar in table.chart.bars] == [(row[0][:3], row[2]) for row in table.rows]
    order = sorted(table.chart.bars, key=lambda bar: bar.value)
    assert order[0].label == "Jun" and order[-1].shown == "does not run down"  # south of the equator


def test_gas_days_by_season_where_gas_heats_the_van_and_by_bottles_elsewhere() -> None:
    table = table_of("marram-0417", "gas-day")
    assert table.chart is not None
    assert [(bar.label, bar.shown) for bar in table.chart.bars] == [(row[0], row[3]) for row in table.rows]
    warm, mild, cold = (bar.value for bar in table.chart.bars)
    assert warm > mild > cold > 0
    for van, bars in (("sorrel-0032", ["One bottle"]), ("banksia-0215", ["One bottle", "All bottles"])):
        table = table_of(van, "gas-day")
        assert table.chart is not None
        assert [bar.label for bar in table.chart.bars] == bars
        assert tuple(bar.shown for bar in table.chart.bars) == table.rows[0][2 : 2 + len(bars)]
