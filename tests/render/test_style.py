"""Rules are chosen from a theme's style sheet by what they speak of."""

from generator.render.style import chosen_rules

SHEET = (
    '@charset "UTF-8";html{font-size:125%}.text{margin:0}.text table,.text .fancy,.other p{padding:0}'
    "@media print{.text p{color:red}}.text blockquote{x:y}.text p:hover{x:y}.text ul li{margin:1em}"
    "@supports (display:grid){@media screen{.text p{color:blue}}.text p{color:green}}.text p{x:z}"
)


def test_rules_of_the_scope_for_known_elements_are_kept_without_weight() -> None:
    kept = chosen_rules(SHEET, "text", {"table", "p", "ul", "li"})
    assert kept.split("\n") == [
        ":where(.text){margin:0}",
        ":where(.text table){padding:0}",
        ":where(.text ul li){margin:1em}",
        ":where(.text p){x:z}",
    ]
