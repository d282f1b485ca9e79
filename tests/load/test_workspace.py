from pathlib import Path

import pytest

from generator.errors import CatalogueError, ContentError, ManualError, Source, SpecError
from generator.load import load

from ..conftest import BuildWorkspace

VAN = "van_specs/vans/dune-1.yaml"


def test_a_workspace_without_faults(build_workspace: BuildWorkspace) -> None:
    workspace = load(build_workspace())
    assert list(workspace.vans) == [VAN]
    assert [block.id for block in workspace.content.blocks] == ["coupling/couple", "fridge/run", "gas/open"]
    assert list(workspace.catalogue.slots) == ["coupling", "gas", "hot_water", "room_heater", "fridge", "lamps"]
    assert workspace.catalogue.slots["lamps"].many
    assert workspace.catalogue.kinds["fridge", "absorption"].parameters["gas_input"].basis == "required"
    assert [trait.id for trait in workspace.catalogue.derived] == ["flame", "no-flame"]
    assert set(workspace.markets) == {"uk", "nz"} and set(workspace.dealers) == {"quayside"}
    assert workspace.dealers["quayside"].label_stock is not None
    assert list(workspace.content.outline.phases) == ["arriving"]
    assert workspace.content.order == ()


def test_order_rules_are_read_where_there_are_any(build_workspace: BuildWorkspace) -> None:
    rules = "- {first: gas-shut, then: gas-shut, why: a test, always: yes, where: [gas]}\n"
    (rule,) = load(build_workspace({"content/order.yaml": rules})).content.order
    assert (rule.first.value, rule.always, rule.where[0].value) == ("gas-shut", True, "gas")


def test_only_the_wanted_build_sheets_are_read(
    build_workspace: BuildWorkspace, monkeypatch: pytest.MonkeyPatch
) -> None:
    root = build_workspace({"van_specs/vans/broken.yaml": "x: y\n"})
    monkeypatch.chdir(root.parent)
    for path in (Path(VAN), root / VAN, Path("workspace") / VAN):
        assert list(load(root, [path]).vans) == [VAN]


def test_a_build_sheet_may_lie_outside_the_workspace(build_workspace: BuildWorkspace, tmp_path: Path) -> None:
    root = build_workspace()
    outside = tmp_path / "van.yaml"
    outside.write_text((root / VAN).read_text().replace("market: uk", "market: 1\nmarket: uk"))
    with pytest.raises(SpecError) as caught:
        load(root, [outside])
    assert caught.value.faults[0].source == Source(outside.as_posix(), 4, 1)


def test_a_missing_build_sheet_is_a_fault(build_workspace: BuildWorkspace) -> None:
    with pytest.raises(SpecError, match="this file is missing"):
        load(build_workspace(), [Path("van_specs/vans/none.yaml")])


def test_faults_of_all_files_are_told_together_in_order(build_workspace: BuildWorkspace) -> None:
    root = build_workspace(
        {
            VAN: "",
            "content/terms.yaml": None,
            "content/blocks/gas/open.md": "no front matter",
            "content/equipment/fridge/compressor.yaml": "nmae: x\ntraits: [fridge-compressor]\n",
        }
    )
    with pytest.raises(ManualError) as caught:
        load(root)
    assert type(caught.value) is ManualError
    assert [str(fault.source) for fault in caught.value.faults] == [
        "content/blocks/gas/open.md:1:1",
        "content/equipment/fridge/compressor.yaml:1:1",
        "content/equipment/fridge/compressor.yaml:1:1",
        "content/terms.yaml:1:1",
        "van_specs/vans/dune-1.yaml:1:1",
    ]


@pytest.mark.parametrize(
    ("file", "error"),
    [
        (VAN, SpecError),
        ("content/equipment/slots.yaml", CatalogueError),
        ("content/traits.yaml", CatalogueError),
        ("content/outline.yaml", ContentError),
        ("content/safety/gas-escape.yaml", ContentError),
    ],
)
def test_the_error_names_what_must_be_put_right(
    file: str, error: type[ManualError], build_workspace: BuildWorkspace
) -> None:
    with pytest.raises(error):
        load(build_workspace({file: "- - -\n"}))


def test_a_folder_without_content_is_no_workspace(tmp_path: Path) -> None:
    with pytest.raises(ContentError, match="this is no workspace"):
        load(tmp_path)


def test_a_link_out_of_the_workspace_is_not_followed_by_a_name(build_workspace: BuildWorkspace, tmp_path: Path) -> None:
    """Names in a build sheet are looked up among the files of a folder; they never become a path."""
    (tmp_path / "secret.yaml").write_text("name: X\n")
    root = build_workspace({VAN: "chassis: X1\nbased_on: ../../../secret\nmarket: uk\ndealer: quayside\n"})
    assert "../../../secret" not in load(root).models
