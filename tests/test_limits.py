"""A van over a plate or a legal limit is not published, and nothing else of the run is; a thin margin is told."""

from pathlib import Path

from .test_cli import change, command, copied

SORREL, MARRAM = "van_specs/vans/sorrel-0032.yaml", "van_specs/vans/marram-0431-nz.yaml"


def test_over_a_plate_or_a_legal_limit_nothing_is_published(tmp_path: Path) -> None:
    desk = copied(tmp_path / "desk", SORREL, MARRAM)
    change(desk / "van_specs/models/sorrel-2.yaml", "max_laden: 650 kg", "max_laden: 780 kg")  # without brakes
    change(desk / MARRAM, "ventilation: 24000 mm2", "ventilation: 19000 mm2")  # by law there
    with (desk / MARRAM).open("a") as sheet:
        sheet.write("masses: {max_ball_load: 80 kg}\n")
    done = command("publish", cwd=desk)
    assert done.returncode == 1
    for said in (
        "a van without brakes may weigh 750 kg with its load here, and this one 780 kg",
        "fixed vents of 19000 mm² are less than the 23767 mm² needed (AS/NZS 5601.2)",
        "the ball load as fitted is 83.6 kg, over the limit of 80 kg",
    ):
        assert f"error: {said}" in done.stderr
    assert not (desk / "library").exists() or not list((desk / "library").glob("*/index.html"))


def test_a_thin_margin_is_told_with_its_numbers_and_published(tmp_path: Path) -> None:
    desk = copied(tmp_path / "desk", MARRAM)
    done = command("publish", cwd=desk)
    assert done.returncode == 0
    thin = "thin margin: the payload of 129 kg is less than 10% of the maximum laden mass of 1400 kg"
    assert f"warning: {thin}" in done.stderr
    assert len(list((desk / "library").glob("*/index.html"))) == 1
