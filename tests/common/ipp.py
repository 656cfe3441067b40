"""Messages of the Internet Printing Protocol, as far as the tests need them (RFC 8010, section 3: encoding; RFC 8011 and PWG 5100.x: names)."""
import http.client
import struct

OPERATION, JOB, END, PRINTER = 0x01, 0x02, 0x03, 0x04
INTEGER, BOOLEAN, ENUM, TEXT, NAME, KEYWORD, URI, CHARSET, LANGUAGE, MEDIA_TYPE = 0x21, 0x22, 0x23, 0x41, 0x42, 0x44, 0x45, 0x47, 0x48, 0x49
GET_JOB_ATTRIBUTES = 0x0009


def encode(code, groups, number=1, version=b"\x02\x00"):
    """groups: [(group tag, [(value tag, name, value or list of values)])]"""
    out = [version, struct.pack(">HI", code, number)]
    for group, attributes in groups:
        out.append(bytes([group]))
        for tag, name, values in attributes:
            for i, value in enumerate(values if isinstance(values, list) else [values]):
                data = struct.pack(">i", value) if tag in (INTEGER, ENUM) else bytes([value]) if tag == BOOLEAN else value.encode()
                label = name.encode() if i == 0 else b""
                out.append(struct.pack(">BH", tag, len(label)) + label + struct.pack(">H", len(data)) + data)
    return b"".join(out) + bytes([END])


def decode(data):
    """(code, request number, {name: [values]}, what follows the message)"""
    code, number = struct.unpack(">HI", data[2:8])
    at, found, name = 8, {}, ""
    while data[at] != END:
        tag = data[at]
        at += 1
        if tag < 0x10:
            continue
        length, = struct.unpack(">H", data[at:at + 2])
        if length:
            name = data[at + 2:at + 2 + length].decode()
        at += 2 + length
        length, = struct.unpack(">H", data[at:at + 2])
        value = data[at + 2:at + 2 + length]
        at += 2 + length
        found.setdefault(name, []).append(struct.unpack(">i", value)[0] if tag in (INTEGER, ENUM) else value[0] == 1 if tag == BOOLEAN else value.decode("utf-8", "replace"))
    return code, number, found, data[at + 1:]


def ask(port, code, attributes, path="/"):
    """What a server on loopback answers: (status code, {name: [values]})."""
    head = [(CHARSET, "attributes-charset", "utf-8"), (LANGUAGE, "attributes-natural-language", "en")]
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=20)
    try:
        connection.request("POST", path, encode(code, [(OPERATION, head + attributes)]), {"Content-Type": "application/ipp"})
        status, _, found, _ = decode(connection.getresponse().read())
        return status, found
    finally:
        connection.close()
