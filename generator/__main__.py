"""``python -m generator``: the same as the command ``lockerleaf``."""

from generator.cli import main

if __name__ == "__main__":
    main()
