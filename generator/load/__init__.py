"""The stage that reads workspace and records: files to typed documents with source positions.

Following references of a van is left to ``resolve``.
"""
