"""The yardstick: XML to one header, without schema, model, rules or report. FROM.xml TO.h"""

import sys

import jinja2
from lxml import etree

TEMPLATE = """#ifndef {{ chip }}_H
#define {{ chip }}_H
{% for r in registers %}
/* {{ r.name }}: {{ r.title }} */
#define {{ r.name }}_ADDR {{ r.address }}U
#define {{ r.name }} (*(volatile uint8_t *){{ r.address }}U)
#define {{ r.name }}_RESET {{ r.reset }}U
{% for f in r.fields %}
#define {{ r.name }}_{{ f.name }}_BITPOS {{ f.bits }}U
#define {{ r.name }}_{{ f.name }}_MASK (1U << {{ f.bits }})
{% endfor %}
{% endfor %}
#endif
"""
root = etree.parse(sys.argv[1]).getroot()
registers = [dict(e.attrib, fields=[dict(f.attrib) for f in e]) for e in root.iter("register")]
text = jinja2.Template(TEMPLATE, trim_blocks=True).render(
    chip=root.get("name"), registers=registers
)
with open(sys.argv[2], "w") as file:
    file.write(text)
