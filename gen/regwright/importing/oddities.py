"""The names of remarks on what was imported, and what each is about, in one sentence."""

from __future__ import annotations

ODDITIES: dict[str, str] = {
    "not-carried-over": "A description has no place for this; it is listed so that nothing "
    "vanishes silently.",
    "not-readable": "The file, or a part of it, cannot be read at all.",
    "name-mapped": "A name is no C identifier, or is taken; it was mapped, and the original became "
    "the title.",
    "text-shortened": "A text is longer than a description allows; its end was left out.",
    "needs-review": "A value could not be read with certainty; a person must look at it.",
    "mapping-not-valid": "The mapping file is not what schemas/mapping.schema.json describes.",
    "path-not-valid": "A path of the mapping is no XPath 1.0 or no JSONPath, or fails.",
    "path-without-result": "A path of the mapping selects nothing in the whole document.",
    "path-of-wrong-kind": "A path of the mapping selects what cannot stand where it is used.",
    "path-of-several": "A path of the mapping selects several things where one is wanted.",
    "lookup-without-result": "A lookup of the mapping names something that is not there.",
    "value-not-readable": "A value is not written as the mapping says, or is none that a "
    "description can hold.",
    "derived-in-a-circle": "Things take after each other, so that none stands for itself.",
    "derived-from-nothing": "What something takes after is not there, or there are several.",
    "too-much": "There is more than a description can hold.",
    "took-too-long": "A mapping takes more time or memory than it may.",
    "import-conflict": "The import says something else than the description does; the description "
    "was left as it is.",
    "addresses-inferred": "What printed addresses mean was worked out from all rows of the tables "
    "together.",
    "number-spelling": "A number is written in a way that its edition of IEEE 1685 does not have; "
    "it was read as it was surely meant.",
    "number-unclear": "A number or condition cannot be worked out.",
    "formula-not-read": "A number depends on others by a formula of the 2009 edition; the number "
    "that stands there was taken.",
    "access-word": "A word for an access or its effect is none of the standard's.",
    "mode-ignored": "Something holds in one mode alone; it was taken to hold always.",
    "value-cut": "A value has more bits than there is room for.",
    "field-past-the-end": "A field has bits that its register has not; they were left out.",
    "range-too-small": "Registers reach past the end of what is around them, whose size was left "
    "out.",
    "array-of-none": "An array has no elements; it was taken for a single one.",
    "array-flattened": "An array has several dimensions; its elements were numbered in one row.",
    "register-split": "A register is wider than 64 bits; it became several.",
    "block-dissolved": "Groups are nested too deeply; the inner ones became part of the outer.",
    "bank-irregular": "Something does not lie evenly in the rows of a parallel bank.",
    "unit-differs": "A definition counts addresses in other units than what refers to it.",
    "reference-unclear": "Something refers to what is not there, or does not say what it is.",
    "definition-not-found": "A definition in this or another document is not there, or leads in a "
    "circle.",
    "foreign-element": "An element stands where the standard has none of that name.",
    "not-present": "Something is there under a condition that does not hold; it was left out.",
    "no-pointer": "Addresses of a space hold other than 8 bits, so that no C pointer reaches it.",
    "map-unclear": "It is not clear which memory map is meant.",
    "schema-error": "The standard's own schema finds an error here.",
    "schema-not-used": "The standard's schemas are not where they were looked for.",
}
