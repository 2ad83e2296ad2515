"""Whether an address reaches this computer alone."""

from __future__ import annotations

import ipaddress


def is_loopback(host: str) -> bool:
    """Say whether a host name or address reaches this computer alone."""
    if host.lower() == "localhost":
        return True
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return False
