"""Laws of configuration words, held over configurations that hypothesis makes up."""

from __future__ import annotations

import json
from functools import cache

from configurations import (
    bit_numbers,
    cases,
    chip_with,
    configurations,
    extracted,
    mask_of,
    words_for,
)
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from conftest import ROOT
from regwright.configuration.changes import changes, lock_changes
from regwright.configuration.decode import choices_of, decode, default_words, problems
from regwright.configuration.encode import encode
from regwright.configuration.hazards import added_hazards, hazards_of
from regwright.configuration.words import (
    current_words,
    inverted,
    required_bits,
    undescribed_bits,
    verify_mask,
)
from regwright.model.configuration import Configuration
from regwright.reports.configuration import FORMS, Configured
from regwright.reports.configuration_text import configuration_lines
from regwright.reports.pieces import plain_text

STEADY = settings(
    deadline=None,
    derandomize=True,
    database=None,
    max_examples=30,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
Words = dict[str, int]
Case = tuple[Configuration, Words, dict[str, str]]


@cache
def _validator() -> Draft202012Validator:
    schema = json.loads((ROOT / "schemas" / "configuration.schema.json").read_bytes())
    return Draft202012Validator(schema)


@STEADY
@given(cases())
def test_what_is_set_is_read_back(case: Case) -> None:
    configuration, words, chosen = case
    read = decode(configuration, encode(configuration, words, chosen))
    assert {setting: read[setting] for setting in chosen} == chosen


@STEADY
@given(cases())
def test_no_other_bit_changes(case: Case) -> None:
    configuration, words, chosen = case
    after = encode(configuration, words, chosen)
    assert after.keys() == words.keys()
    for name, value in after.items():
        assert (value ^ words[name]) & ~mask_of(configuration, chosen, name) == 0
    untouched = decode(configuration, words).items() - decode(configuration, after).items()
    assert {setting for setting, _ in untouched} <= chosen.keys()


@STEADY
@given(cases())
def test_setting_what_is_there_changes_nothing(case: Case) -> None:
    configuration, words, chosen = case
    there = {name: choice for name, choice in decode(configuration, words).items() if choice}
    assert encode(configuration, words, there) == words
    after = encode(configuration, words, chosen)
    assert encode(configuration, after, dict(reversed(chosen.items()))) == after


@STEADY
@given(cases())
def test_a_value_decodes_or_there_is_a_reason(case: Case) -> None:
    configuration, words, _ = case
    read = decode(configuration, words)
    found = problems(configuration, words)
    assert {item.setting for item in found if item.setting} == {
        setting for setting, choice in read.items() if choice is None
    }
    for word in configuration.words:
        for field in word.fields:
            value = extracted(field.bits, words[word.name])
            names = {item.name: item.value for item in choices_of(configuration, field)}
            name = read[field.setting]
            if names:
                assert (value not in names.values()) if name is None else names[name] == value
            else:
                assert int(str(name), 16) == value
        wrong = any(
            item.value is not None and words[word.name] >> bit & 1 != item.value
            for item in word.unused
            for bit in bit_numbers(item.bits)
        )
        assert wrong == any(item.word == word.name and not item.setting for item in found)


@STEADY
@given(configurations())
def test_required_bits_have_a_remedy(configuration: Configuration) -> None:
    """The value that a problem with unused bits names is without such a problem."""
    for item in problems(configuration, {}):
        if not item.setting:
            better = int(item.message.rpartition(" ")[2], 16)
            left = problems(configuration, {item.word: better})
            assert not [one for one in left if one.word == item.word and not one.setting]


@STEADY
@given(cases())
def test_changes_are_all_that_is_different(case: Case) -> None:
    configuration, words, chosen = case
    after = encode(configuration, words, chosen)
    made = dict(words)
    for change in changes(configuration, words, after):
        assert change.field.setting in chosen
        assert change.before != change.after
        for bit in change.bits:
            assert made[change.word.name] >> bit.bit & 1 == bit.before != bit.after
            made[change.word.name] ^= 1 << bit.bit
    assert made == after
    for lock in lock_changes(configuration, words, after):
        differ = words[lock.word.name] ^ after[lock.word.name]
        assert lock.word.lock
        assert lock.set | lock.released == differ
        assert lock.set & lock.released == 0


@STEADY
@given(cases())
def test_hazards_are_those_of_the_choices(case: Case) -> None:
    configuration, words, chosen = case
    after = encode(configuration, words, chosen)
    read = decode(configuration, after)
    expected = {
        name
        for word in configuration.words
        for field in word.fields
        for choice in choices_of(configuration, field)
        if read[field.setting] == choice.name
        for name in choice.hazards
    }
    expected |= {
        hazard.name
        for hazard in configuration.hazards
        if hazard.when and all(read[setting] == choice for setting, choice in hazard.when)
    }
    found = hazards_of(configuration, after)
    before = hazards_of(configuration, words)
    assert {item.hazard.name for item in found} == expected
    assert added_hazards(found, found) == ()
    assert added_hazards((), found) == found
    for item in added_hazards(before, found):
        for cause in item.causes:
            assert any(decode(configuration, words)[s] != c for s, c in cause)


@STEADY
@given(configurations(), st.data())
def test_every_bit_is_of_one_kind(configuration: Configuration, data: st.DataObject) -> None:
    words = data.draw(words_for(configuration))
    for word in configuration.words:
        ones = (1 << word.width) - 1
        free = sum(
            1 << bit for item in word.unused if item.value is None for bit in bit_numbers(item.bits)
        )
        assert verify_mask(word) + undescribed_bits(word) + free == ones
        assert required_bits(word)[0] & ~verify_mask(word) == 0
        value = words[word.name]
        assert inverted(word, value) + value == ones
    assert current_words(configuration, {}) == default_words(configuration)


@settings(STEADY, max_examples=15)
@given(cases(), st.sampled_from([40, 80, 132]))
def test_every_form_takes_every_configuration(case: Case, width: int) -> None:
    configuration, words, chosen = case
    chip = chip_with(configuration)
    after = encode(configuration, words, chosen)
    for result in (None, after):
        shown = Configured("made.xml", chip, configuration, words, result)
        _validator().validate(json.loads(FORMS["json"](shown)))
        assert FORMS["markdown"](shown).endswith("\n")
        lines = [plain_text(line) for line in configuration_lines(shown, width)]
        text = FORMS["text"](shown)
        assert " ".join(text.split()).count("no meaning") == " ".join(
            " ".join(lines).split()
        ).count("no meaning")
        for word in configuration.words:
            for field in word.fields:
                if result is None:
                    assert f"{field.setting} = " in text


@settings(STEADY, max_examples=15)
@given(configurations(), st.sampled_from([60, 80, 132]))
def test_lines_are_no_wider_than_the_terminal(configuration: Configuration, width: int) -> None:
    """But for what cannot be broken: the fixed columns of a row, and the digits of a word."""
    shown = Configured("made.xml", chip_with(configuration), configuration, {})
    for line in configuration_lines(shown, width):
        text = "".join(piece.text for piece in line)
        assert text == text.rstrip()
        assert len(text) <= width or "0b" in text or " = " in text
