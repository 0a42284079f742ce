"""Make ``schemas/chip.xsd`` (W3C XSD 1.0) from ``schemas/chip.schema.json``.

Run ``python -m regwright.format.xsd > schemas/chip.xsd`` after changing the JSON Schema; a test
fails when the two have drifted apart.
"""

from __future__ import annotations

import re
import sys
from typing import Any
from xml.sax.saxutils import escape, quoteattr

from regwright.format.shape import PREFIX, Child, definition, schema, shapes, value_schema

_RANGE = re.compile(r"\\u([0-9A-F]{4})(?:-\\u([0-9A-F]{4}))?")
#: Definitions of what XML spells in a way of its own.
ONLY_JSON = ("comment", "location")
_HEAD = """<?xml version="1.0" encoding="UTF-8"?>
<!-- Made from chip.schema.json by python -m regwright.format.xsd: change that file instead. -->
<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema">
"""


def xsd_pattern(pattern: str) -> str:
    """Return a JSON Schema pattern as XSD writes it: anchored anyway, XML's characters only."""

    def characters(match: re.Match[str]) -> str:
        first = int(match[1], 16)
        last = int(match[2] or match[1], 16)
        allowed = [code for code in range(first, last + 1) if _is_xml_character(code)]
        return "".join(chr(code) for code in allowed)

    return _RANGE.sub(characters, pattern.removeprefix("^").removesuffix("$"))


def _is_xml_character(code: int) -> bool:
    return code in (0x9, 0xA, 0xD) or 0x20 <= code <= 0xD7FF or 0xE000 <= code <= 0xFFFD


def _documentation(text: str, indent: str) -> str:
    return (
        f"{indent}<xs:annotation><xs:documentation>{escape(text)}"
        "</xs:documentation></xs:annotation>\n"
    )


def _simple_body(value: dict[str, Any], indent: str) -> str:
    """Return the restriction that a plain value's schema amounts to."""
    if value.get("type") == "integer":
        facets = ['<xs:pattern value="0|[1-9][0-9]*"/>']
        facets += [f'<xs:minInclusive value="{value["minimum"]}"/>']
        facets += [f'<xs:maxInclusive value="{value["maximum"]}"/>']
        base = "xs:integer"
    elif value.get("type") == "boolean":
        facets = ['<xs:enumeration value="true"/>', '<xs:enumeration value="false"/>']
        base = "xs:string"
    elif "enum" in value:
        facets = [f'<xs:enumeration value="{item}"/>' for item in value["enum"]]
        base = "xs:string"
    else:
        quoted = quoteattr(xsd_pattern(value["pattern"]), {"\x7f": "&#127;"})
        facets = [f"<xs:pattern value={quoted}/>"]
        if "maxLength" in value:
            facets += [f'<xs:maxLength value="{value["maxLength"]}"/>']
        base = "xs:string"
    lines = "".join(f"{indent}  {facet}\n" for facet in facets)
    return f'{indent}<xs:restriction base="{base}">\n{lines}{indent}</xs:restriction>\n'


def _simple_type(name: str, value: dict[str, Any]) -> str:
    body = _simple_body(value, "    ")
    documentation = _documentation(value["description"], "    ")
    return f'  <xs:simpleType name="{name}">\n{documentation}{body}  </xs:simpleType>\n'


def _attribute(name: str, spec: dict[str, Any], *, required: bool) -> str:
    use = ' use="required"' if required else ""
    documentation = _documentation(spec["description"], "      ")
    if "$ref" in spec:
        kind = f' type="{spec["$ref"].removeprefix(PREFIX)}"'
        body = ""
    else:
        kind = ""
        body = f"      <xs:simpleType>\n{_simple_body(spec, '        ')}      </xs:simpleType>\n"
    return (
        f'    <xs:attribute name="{name}"{kind}{use}>\n{documentation}{body}    </xs:attribute>\n'
    )


def _element(child: Child, spec: dict[str, Any], *, required: bool) -> str:
    kind = child.shape or spec["$ref"].removeprefix(PREFIX)
    lowest = max(int(required), spec.get("minItems", 0) if required else 0)
    highest = spec.get("maxItems", "unbounded") if child.many else 1
    documentation = _documentation(spec["description"], "        ")
    return (
        f'      <xs:element name="{child.element}" type="{kind}" '
        f'minOccurs="{lowest}" maxOccurs="{highest}">\n{documentation}      </xs:element>\n'
    )


def _complex_type(name: str, spec: dict[str, Any]) -> str:
    shape = shapes()[name]
    required = set(spec["required"])
    properties = spec["properties"]
    elements = "".join(
        _element(child, properties[child.property], required=child.property in required)
        for child in shape.children.values()
    )
    sequence = f"    <xs:sequence>\n{elements}    </xs:sequence>\n" if elements else ""
    attributes = "".join(
        _attribute(key, properties[key], required=key in required) for key in shape.attributes
    )
    documentation = _documentation(spec["description"], "    ")
    return (
        f'  <xs:complexType name="{name}">\n{documentation}{sequence}{attributes}'
        "  </xs:complexType>\n"
    )


def make_xsd() -> str:
    """Return the whole XSD as text."""
    parts = [_HEAD]
    parts.append(_documentation(schema()["description"], "  "))
    parts.append('  <xs:element name="chip" type="chip"/>\n')
    for name, spec in schema()["$defs"].items():
        if spec.get("type") == "object":
            parts.append(_complex_type(name, definition(PREFIX + name)))
        elif name not in ONLY_JSON:
            parts.append(_simple_type(name, value_schema(spec)))
    parts.append("</xs:schema>\n")
    return "".join(parts)


if __name__ == "__main__":
    sys.stdout.write(make_xsd())
