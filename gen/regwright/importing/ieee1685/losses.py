"""Which elements an import uses, and which a description has no place for.

A test walks the standard's schemas and holds these tables against them.
"""

_TEXTS = frozenset({"name", "displayName", "shortDescription", "description"})
_COMMON = _TEXTS | {"isPresent", "vendorExtensions"}
_BLOCK = _COMMON | {"usage", "volatile", "access", "accessPolicies", "addressUnitBits"}
_REGISTERS = frozenset({"register", "registerFile"})
_ITEMS = frozenset({"addressBlock", "bank", "subspaceMap"})
_WITHOUT_TEXTS = frozenset({"name", "isPresent", "vendorExtensions"})
_EFFECTS = frozenset({"access", "modifiedWriteValue", "readAction", "writeValueConstraint"})

#: Elements that are used, by the element they stand in.
USED: dict[str, frozenset[str]] = {
    "memoryMap": _COMMON | _ITEMS | {"memoryRemap", "addressUnitBits", "memoryMapDefinitionRef"},
    "memoryRemap": _WITHOUT_TEXTS | _ITEMS | {"modeRef", "remapDefinitionRef", "addressUnitBits"},
    "bank": _BLOCK | _ITEMS | {"baseAddress", "bankDefinitionRef"},
    "addressBlock": _BLOCK
    | _REGISTERS
    | {"array", "dim", "baseAddress", "range", "width", "addressBlockDefinitionRef"},
    "subspaceMap": frozenset({"isPresent", "vendorExtensions", "baseAddress"}),
    "registerFile": _COMMON
    | _REGISTERS
    | {
        "array",
        "dim",
        "addressOffset",
        "range",
        "accessPolicies",
        "registerFileDefinitionRef",
        "addressUnitBits",
    },
    "register": _COMMON
    | {
        "array",
        "dim",
        "addressOffset",
        "size",
        "volatile",
        "access",
        "accessPolicies",
        "reset",
        "field",
        "alternateRegisters",
        "registerDefinitionRef",
    },
    "alternateRegister": _COMMON
    | {"alternateGroups", "modeRef", "volatile", "access", "accessPolicies", "reset", "field"},
    "field": _COMMON
    | _EFFECTS
    | {
        "array",
        "bitOffset",
        "bitWidth",
        "volatile",
        "resets",
        "enumeratedValues",
        "values",
        "reserved",
        "fieldDefinitionRef",
        "fieldAccessPolicies",
        "aliasOf",
    },
    "fieldAccessPolicy": _EFFECTS
    | {"modeRef", "fieldAccessPolicyDefinitionRef", "reserved", "vendorExtensions"},
    "accessPolicy": frozenset({"modeRef", "access", "vendorExtensions"}),
    "enumeratedValue": _TEXTS | {"value", "vendorExtensions"},
    "enumeratedValues": frozenset({"enumeratedValue", "value", "enumerationDefinitionRef"}),
    "reset": frozenset({"value", "mask"}),
    "array": frozenset({"dim", "stride", "bitStride"}),
    "addressSpace": _COMMON | {"range", "segments", "addressUnitBits", "localMemoryMap"},
    "segment": frozenset({"name", "displayName", "isPresent", "vendorExtensions"})
    | {"addressOffset", "range"},
    "localMemoryMap": _COMMON | _ITEMS | {"addressUnitBits"},
}

#: Elements that a description has no place for, and what each says, for the report of losses.
LOST: dict[str, str] = {
    "name": "a name",
    "displayName": "a name to show (displayName)",
    "shortDescription": "a short text (shortDescription)",
    "description": "a text (description)",
    "parameters": "that numbers follow from parameters (parameters)",
    "width": "how many bits are transferred at once (width)",
    "accessHandles": "where simulators find it (accessHandles)",
    "typeIdentifier": "which elements are of one type (typeIdentifier)",
    "testable": "whether a test may read back what it wrote (testable)",
    "readResponse": "what a read of a write-only field gives (readResponse)",
    "broadcasts": "which other fields a write goes to (broadcasts)",
    "accessRestrictions": "which bits are accessible in which mode (accessRestrictions)",
    "executableImage": "which program is loaded there (executableImage)",
    "shared": "whether several interfaces share it (shared)",
    "assertions": "what parameters must fulfil (assertions)",
}

#: The same for attributes of the elements above.
LOST_ATTRIBUTES: dict[str, str] = {
    "misalignmentAllowed": "whether registers may be misaligned (misalignmentAllowed)",
    "modify": "how a field is modified, in its author's words (modify)",
    "indexVar": "the name of an array's index (indexVar)",
    "fieldID": "an identifier for references (fieldID)",
}

#: Children of a component that say something of its registers.
LOST_OF_COMPONENT: dict[str, str] = {
    "indirectInterfaces": "registers that are reached through others (indirectInterfaces)",
    "remapStates": "when which remap is there (remapStates)",
    "modes": "what its modes are (modes)",
    "resetTypes": "what its types of reset are (resetTypes)",
    "cpus": "how its processors see address spaces (cpus)",
    "assertions": LOST["assertions"],
}
