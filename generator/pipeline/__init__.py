"""Strings the stages together: load -> resolve -> compute -> assemble -> render -> fill -> paper -> publish.

Order and the gathering of faults are decided here, everything else in the stages. A module for each thing that is
asked for; ``making`` and ``finishing`` hold the steps they share. Day and secret are arguments.
"""
