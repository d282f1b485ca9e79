"""The address on a label: as much of it in upper case as may be.

Whether the address answers is left to the web server.
"""

from urllib.parse import urlsplit

# What alphanumeric mode can hold (ISO/IEC 18004), 5.5 bits a character where byte mode takes 8.
ALPHANUMERIC = frozenset("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:")


def label_address(manual: str, path: str) -> str:
    """Return the address of a place for its label: ``HTTPS://VANS.EXAMPLE/7K3QX9F4WM/A1/``.

    Scheme and host do not depend on case (RFC 3986, section 6.2.2.1), so they are written in upper
    case. A path does, so it stays as it is: folders and place codes are upper case already.

    Args:
        manual: Address of the manual, ending in a slash.
        path: The place from the manual's root, ending in a slash: "A1/".
    """
    parts = urlsplit(manual)
    return f"{parts.scheme.upper()}://{parts.netloc.upper()}{parts.path}{path}"


def is_dense(address: str) -> bool:
    """Return whether the address leaves alphanumeric mode, which makes its symbol finer."""
    return not ALPHANUMERIC.issuperset(address)
