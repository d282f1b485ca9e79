"""The stage that makes a van's manual out of its equipment, numbers and content.

Rendering, filling and paper are left to later stages; nothing here reads or writes a file.
"""

from generator.assemble.stage import assemble

__all__ = ["assemble"]
