"""The stage that judges one published manual: is every file there, as it was published, and nothing else.

A manual says itself what it consists of: its worker lists its files with digests, its zip holds copies of the rest.
"""

from generator.verify.manual import verify

__all__ = ["verify"]
