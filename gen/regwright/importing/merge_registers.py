"""Merge one register with what an import has for it: all of it, or one half."""

from __future__ import annotations

from collections.abc import Iterator
from copy import deepcopy
from typing import Any

from regwright.importing.draft import Tree
from regwright.importing.merge_fields import FIELD_KEYS, merge_fields, without_slices
from regwright.importing.merge_matching import Matches, Partner
from regwright.importing.merge_meaning import spelled_addresses
from regwright.importing.merge_nodes import Nodes, Spot, in_order, shown
from regwright.importing.spelled import hexadecimal
from regwright.importing.spelled import reset as spelled_reset
from regwright.model.chip import Reset
from regwright.model.origin import Origin
from regwright.read.numbers import number, reset
from regwright.resolve.chip import Placed

#: What a register has from its block or chip when it does not say it, and what the format says
#: when nobody does.
INHERITED: dict[str, Any] = {"width": 8, "access": "read-write", "byteOrder": "little"}
#: What says where a register stands, and as what; another structure says it in another way.
_STANDING = frozenset({"name", "address", "offset", "count", "stride", "firstIndex"})
Context = dict[str, Any]


def contexts(tree: Tree) -> dict[Origin, Context]:
    """Return what the registers of each container of ``tree`` inherit, where it is said."""
    return dict(_contexts(tree, None, {}))


def _contexts(tree: Tree, origin: Origin, around: Context) -> Iterator[tuple[Origin, Context]]:
    own = {**around, **{key: tree[key] for key in INHERITED if key in tree}}
    yield origin, own
    for index, block in enumerate(tree.get("blocks", ())):
        yield from _contexts(block, (origin, "blocks", index), own)


def explicit(register: Tree, theirs: Context, ours: Context) -> Tree:
    """Return a copy of an imported register that says what it would not inherit here."""
    found = deepcopy(register)
    for key, usual in INHERITED.items():
        value = theirs.get(key, usual)
        if key not in found and ours.get(key, usual) != value:
            found = in_order("register", found, {key: value})
    return found


class Registers:
    """Merges registers that have partners."""

    def __init__(self, nodes: Nodes, matches: Matches, here: Tree, brought: Tree) -> None:
        self.nodes = nodes
        self.matches = matches
        self.ours = contexts(here)
        self.theirs = contexts(brought)

    def register(self, here: Tree, within: Origin, spot: Spot) -> Tree:
        """Return the register ``here`` with what each of its partners knows."""
        partners = self.matches.partners.get(spot.at, [])
        for partner in partners:
            if partner.half and "halves" in here:
                here = self._half(here, partner, within, spot)
            else:
                here = self._whole(here, partner, within, spot)
        return self._reset_of_halves(here, partners, spot)

    def _whole(self, here: Tree, partner: Partner, within: Origin, spot: Spot) -> Tree:
        before = len(self.nodes.conflicts)
        brought = self._unlike_inherited(here, partner, within)
        found, skip = here, FIELD_KEYS | {"address"}
        if partner.ours is not None and partner.theirs is not None:
            self._same_name(here["name"], partner.ours, partner.theirs, (spot.at, "name"))
            skip |= _STANDING
            if "halves" in brought:
                prefix = partner.ours.name.removesuffix(here["name"])
                brought["halves"] = _halves_in(brought["halves"], prefix, within)
        if (
            "address" in here
            and "address" in brought
            and "count" not in here.keys() | brought.keys()
        ):
            found = self._addresses(here, brought["address"], spot)
        elif partner.ours is not None and partner.theirs is not None:
            self._same_address(here, partner.ours, partner.theirs, spot)
        elif "address" in brought:
            skip -= {"address"}
        merged = merge_fields(self.nodes, found, brought, spot)
        agree = merged.agree and len(self.nodes.conflicts) == before
        is_certain = agree and self._gives_addresses(here, partner)
        return self.nodes.node("register", merged.tree, brought, spot, skip, certain=is_certain)

    def _unlike_inherited(self, here: Tree, partner: Partner, within: Origin) -> Tree:
        """Return the imported register with what it inherits, without what is so here anyway."""
        brought = dict(partner.brought.tree)
        ours, theirs = self.ours[within], self.theirs[partner.brought.within]
        for key, usual in INHERITED.items():
            if key not in brought and key in theirs and (key in here or key not in ours):
                brought[key] = theirs[key]
            if key in brought and key not in here and ours.get(key, usual) == brought[key]:
                del brought[key]
        access = here.get("access", ours.get("access", INHERITED["access"]))
        if "fields" in brought and access == brought.get("access", access):
            brought["fields"] = [
                {key: value for key, value in field.items() if (key, value) != ("access", access)}
                for field in brought["fields"]
            ]
        return brought

    def _same_name(self, own: str, ours: Placed, theirs: Placed, at: Origin) -> None:
        if ours.name != theirs.name:
            name = shown(own if ours.name.endswith(own) else ours.name)
            self.nodes.differ(at, f"name is {name} here and {shown(theirs.name)} in the import")

    def _addresses(self, here: Tree, brought: str | int, spot: Spot) -> Tree:
        """Return the register with the addresses of both, which must not contradict windows."""
        known = self.matches.our_addresses.get(spot.at, {})
        spelled = spelled_addresses(here["address"], self.nodes.space)
        fit = []
        for space, value in spelled_addresses(brought, self.nodes.space):
            is_new = space in known and space not in dict(spelled)
            if is_new and known[space] != number(value):
                derived = hexadecimal(known[space])
                message = f"in {space} its address must be {derived}, but is {value} in the import"
                self.nodes.differ((spot.at, "address"), message)
            else:
                fit.append(f"{space}:{value}")
        if not fit:
            return here
        address = self.nodes.address(here["address"], " ".join(fit), spot.under("address"))
        return {**here, "address": address}

    def _same_address(self, here: Tree, ours: Placed, theirs: Placed, spot: Spot) -> None:
        at = next((key for key in ("address", "offset") if key in here), None)
        for address in theirs.addresses:
            own = ours.address(address.space)
            if own is not None and own.value != address.value:
                self.nodes.differ(
                    (spot.at, at) if at else spot.at,
                    f"{theirs.name} is at {address.space}:{hexadecimal(own.value)} here and at "
                    f"{address.space}:{hexadecimal(address.value)} in the import",
                )

    def _gives_addresses(self, here: Tree, partner: Partner) -> bool:
        """Tell whether the import gives an address wherever there is one here."""
        if partner.theirs is not None:
            given = {address.space for address in partner.theirs.addresses}
        else:
            spelled = partner.brought.tree.get("address")
            given = set(dict(spelled_addresses(spelled, self.nodes.space))) if spelled else set()
        own = spelled_addresses(here["address"], self.nodes.space) if "address" in here else []
        return set(dict(own)) <= given

    def _half(self, here: Tree, partner: Partner, within: Origin, spot: Spot) -> Tree:
        """Return the register with what the import knows of one of its halves."""
        assert partner.ours is not None  # noqa: S101  a half is only found by its place
        assert partner.theirs is not None  # noqa: S101
        brought = self._unlike_inherited(here, partner, within)
        halves: Tree = here["halves"]
        own: Tree = halves[partner.half]
        inner = spot.under("halves").under(partner.half)
        self._same_name(own["name"], partner.ours, partner.theirs, (inner.at, "name"))
        self._same_address(own, partner.ours, partner.theirs, inner)
        keys = {"title", "aliases", "page", "printed", "review"}
        if "address" in here and "address" not in own:
            keys.add("address")
        part = {key: value for key, value in brought.items() if key in keys}
        new = {**halves, partner.half: self.nodes.node("halfRegister", own, part, inner)}
        self._half_facts(here, brought, partner, within, spot)
        width = partner.ours.facts.width
        shift = width if partner.half == "high" else 0
        fields = without_slices(here, brought, shift)
        return merge_fields(self.nodes, {**here, "halves": new}, fields, spot).tree

    def _half_facts(
        self, here: Tree, brought: Tree, partner: Partner, within: Origin, spot: Spot
    ) -> None:
        """Compare what is said of a half here with what the whole register says."""
        access = here.get("access", self.ours[within].get("access", INHERITED["access"]))
        if brought.get("access", access) != access:
            at = (spot.at, "access") if "access" in here else spot.at
            self.nodes.differ(
                at,
                f"access is {access} here, {partner.half} half and all, and {brought['access']} "
                "in the import",
            )
        facts = partner.ours.facts if partner.ours else None
        own = facts.reset if facts and "reset" in here else None
        if own and "reset" in brought and own != reset(brought["reset"]):
            self.nodes.differ(
                (spot.at, "reset"),
                f"reset is {here['reset']} here and {brought['reset']} for the {partner.half} "
                "half in the import",
            )

    def _reset_of_halves(self, here: Tree, partners: list[Partner], spot: Spot) -> Tree:
        """Return the register with the value after reset that both its halves make."""
        parts: dict[str, tuple[Reset, int]] = {
            partner.half: (reset(partner.brought.tree["reset"]), partner.ours.facts.width)
            for partner in partners
            if partner.half and partner.ours and "reset" in partner.brought.tree
        }
        if "reset" in here or parts.keys() != {"low", "high"}:
            return here
        (low, width), (high, _) = parts["low"], parts["high"]
        both = spelled_reset(
            high.value << width | low.value, high.undefined << width | low.undefined, 2 * width
        )
        self.nodes.added.append((spot.to, "reset"))
        return in_order("register", here, {"reset": both})


def _halves_in(halves: Tree, prefix: str, within: Origin) -> Tree:
    """Return halves as the block at ``within`` has them: without what is of one place alone."""
    found = dict(halves)
    for half in ("low", "high"):
        own = {**halves[half], "name": halves[half]["name"].removeprefix(prefix)}
        if within is not None:
            own.pop("address", None)
        found[half] = own
    return found
