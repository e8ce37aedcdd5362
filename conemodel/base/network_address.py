"""An address of the network as it is written within another text."""


def in_url(address: str) -> str:
    """Return an IP address or a name as it stands in the address bar: IPv6 in brackets (RFC 3986, 3.2.2).

    >>> in_url("192.0.2.7"), in_url("2001:db8::7"), in_url("office-pc.local")
    ('192.0.2.7', '[2001:db8::7]', 'office-pc.local')
    """
    return f"[{address}]" if ":" in address else address
