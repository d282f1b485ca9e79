"""One block per topic, and the reason for every topic that is in or out."""

from .small_van import block, caravan, content, faults, fitted, manual, section


def reasons(made, van):
    return {choice.topic: (choice.block, choice.reason) for choice in manual(made, van).choices}


def test_a_topic_is_in_for_what_is_fitted_and_says_so():
    made = content([block("hot-water/run", needs=["hot-water"])])
    van = caravan(fitted("hot_water", "gas-mains-storage"))
    assert reasons(made, van)["hot-water/run"] == ("hot-water/run", "applies: hot_water: gas-mains-storage")


def test_a_topic_is_out_with_the_trait_it_needs():
    made = content([block("gas/open", needs=["gas"]), block("a/b", without=["mains"])])
    got = reasons(made, caravan(traits=["mains"]))
    assert got["gas/open"] == (None, "needs trait gas")
    assert got["a/b"] == (None, "not with trait mains (given mains)")


def test_each_of_several_blocks_says_why_it_is_out():
    made = content(
        [
            block("water/fill", needs=["water-barrel"], name="water/fill-barrel"),
            block("water/fill", needs=["water-tank"], name="water/fill-tank"),
        ]
    )
    expected = "water/fill-barrel: needs trait water-barrel; water/fill-tank: needs trait water-tank"
    assert reasons(made, caravan())["water/fill"] == (None, expected)


def test_a_topic_without_block_and_one_for_every_van():
    made = content([block("a/b")], [section("System", ("p", ["a/b"]), ("q", ["c/d"]))])
    got = reasons(made, caravan())
    assert got["a/b"] == ("a/b", "applies to every van")
    assert got["c/d"] == (None, "no block answers it")


def test_two_blocks_for_one_topic_name_both_files():
    made = content([block("a/b", name="a/one"), block("a/b", name="a/two")])
    assert faults(made) == [
        'content/blocks/a/two.md:2:1: error: topic "a/b" has two blocks in Small 300 (000417): '
        "content/blocks/a/one.md and content/blocks/a/two.md\n  hint: make their applies exclude each other"
    ]


def test_two_blocks_that_exclude_each_other_are_one_answer():
    made = content([block("a/b", needs=["gas"], name="a/one"), block("a/b", without=["gas"], name="a/two")])
    assert reasons(made, caravan(traits=["gas"]))["a/b"][0] == "a/one"
    assert reasons(made, caravan())["a/b"][0] == "a/two"
