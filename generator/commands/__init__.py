"""The commands, by who comes with them: the dealer's office, who prints, the writer; and what they share.

Each parses, calls what does the work and prints what came of it. The work is imported by the command itself, so that
help is quick.
"""
