"""lockerleaf: from the build sheet of one touring caravan to that van's own owner manual."""

__all__: list[str] = []
