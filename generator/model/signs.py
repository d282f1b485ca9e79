"""What the safety signs mean, in words: beside each picture stands what it says."""

from collections.abc import Mapping

# Referent of each sign the template draws, in our words (ISO 7010; codes and meanings as listed in public registers).
MEANINGS: Mapping[str, str] = {
    "M002": "Read the instructions",
    "M009": "Wear gloves",
    "P003": "No flames, no smoking",
    "P011": "No water on this fire",
    "W001": "General warning",
    "W012": "Electricity",
    "W016": "Poisonous",
    "W017": "Hot surface",
    "W019": "Crushing",
    "W021": "Catches fire",
    "W023": "Burns skin and eyes",
    "W024": "Crushed hands",
    "W026": "Battery charging",
    "W041": "No air to breathe",
}

# What stands on the label of a place without such a sign: pictograms of our own, by the name of their drawing.
PICTOGRAMS: Mapping[str, str] = {
    "cold": "Fridge",
    "fuse": "Fuses",
    "lamp": "Light",
    "locker": "Locker",
    "plug": "Plug and charger",
    "sun": "Solar",
    "switches": "Switches",
    "tap": "Fresh water",
    "toilet": "Toilet",
    "warmth": "Heating",
    "waste": "Waste water",
    "wheel": "Wheel",
}
