"""Makes drawings and signs stand alone, as Typst wants them: name space, typeface and the ink of paper.

What they show was drawn before.
"""

import re
from collections.abc import Mapping

# The classes that the site's style sheet colours, in ink on white.
_STYLE = """
.van__words { fill: #4a4743 } .van__body, .van__wall { fill: #f0ede6; stroke-width: 2 }
.van__roof { stroke: #6f6a62; stroke-width: 1 } .van__floor { fill: #ffffff; stroke-width: 1 }
.van__box { stroke: #6f6a62; stroke-width: 1; stroke-dasharray: 4 3 } .van__wheel, .van__head { fill: #1c1b19 }
.van__bar { stroke-width: 3 } .van__leader { stroke-width: 1.25 } .van__spot { stroke: #ffffff; stroke-width: 2 }
.van__ring { fill: #ffffff; stroke-width: 3 } .van__code { fill: #ffffff } .van__code--framed { fill: #1c1b19 }
.van__frame { fill: #ffffff; stroke-width: 2 }
"""

_LIGHT = re.compile('="(#FFD100|#fff)"')


def signs(pictures: Mapping[str, str]) -> dict[str, str]:
    """Return the signs as pictures that stand alone; the alert symbol also in white, for a dark panel."""
    made = {name: standing(svg) for name, svg in pictures.items()}
    if "alert" in made:
        made["alert-white"] = made["alert"].replace("currentColor", "#ffffff")
    return made


def dark(pictures: Mapping[str, str]) -> dict[str, str]:
    """Return the signs in outline, for a machine that makes dark or leaves alone: what is light there is left out."""
    light = {"#FFD100": "none", "#fff": "none"}
    return {name: _LIGHT.sub(lambda found: f'="{light[found[1]]}"', svg) for name, svg in signs(pictures).items()}


def drawn(svg: str, small: bool = False) -> str:
    """Return a drawing of the van in ink; a small one without the words round it, which could not be read."""
    opened = standing(svg).replace("<svg ", '<svg font-family="Open Sans" ', 1)
    style = _STYLE + (".van__words { fill: none }" if small else "")
    return opened.replace(">", f"><style>{style}</style>", 1)


def standing(svg: str) -> str:
    """Return a picture with the name space that a file of its own needs."""
    return svg.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1)
