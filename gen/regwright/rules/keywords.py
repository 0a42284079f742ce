"""Words that a macro must not be called: keywords and reserved identifiers of C and C++.

Sources: ISO/IEC 9899:1990, 1999, 2011 and 2024, clause "Keywords"; ISO/IEC 14882:2017, tables of
keywords and alternative representations. The tests hold the lists against the compiler.
"""

from __future__ import annotations

import re


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


C89 = _words(
    """auto break case char const continue default do double else enum extern float for goto if
    int long register return short signed sizeof static struct switch typedef union unsigned void
    volatile while"""
)
C99 = C89 | _words("inline restrict _Bool _Complex _Imaginary")
C11 = C99 | _words("_Alignas _Alignof _Atomic _Generic _Noreturn _Static_assert _Thread_local")
C23 = C11 | _words(
    """alignas alignof bool constexpr false nullptr static_assert thread_local true typeof
    typeof_unqual _BitInt _Decimal128 _Decimal32 _Decimal64"""
)
CPP17 = _words(
    """alignas alignof and and_eq asm auto bitand bitor bool break case catch char char16_t
    char32_t class compl const const_cast constexpr continue decltype default delete do double
    dynamic_cast else enum explicit export extern false float for friend goto if inline int long
    mutable namespace new noexcept not not_eq nullptr operator or or_eq private protected public
    register reinterpret_cast return short signed sizeof static static_assert static_cast struct
    switch template this thread_local throw true try typedef typeid typename union unsigned using
    virtual void volatile wchar_t while xor xor_eq"""
)
#: Words that GCC takes as keywords in its own dialects of C.
GNU = frozenset(["asm"])

#: What the preprocessor itself gives a meaning to.
PREPROCESSOR = frozenset(["defined", "__has_include", "__has_c_attribute", "__has_embed"])


#: What ``<stdint.h>`` defines, which every header includes: ISO/IEC 9899:2024, 7.22.
STDINT = (
    r"u?int(_least|_fast)?(8|16|32|64)_t|u?int(ptr|max)_t"
    r"|U?INT((_LEAST|_FAST)?(8|16|32|64)|PTR|MAX)_(MIN|MAX|WIDTH)|U?INT(8|16|32|64|MAX)_C"
    r"|(PTRDIFF|SIG_ATOMIC|SIZE|WCHAR|WINT)_(MIN|MAX|WIDTH)"
)


def is_identifier(name: str) -> bool:
    """Tell whether ``name`` is an identifier of C as every dialect takes it: ASCII only."""
    return name.isascii() and name.isidentifier()


def keyword_of(name: str) -> str:
    """Return the language in which ``name`` is a keyword, or nothing."""
    if name in C23:
        edition = next(
            year
            for year, words in (("C89", C89), ("C99", C99), ("C11", C11), ("C23", C23))
            if name in words
        )
        return f"{edition}" if name not in CPP17 else f"{edition} and C++"
    if name in CPP17:
        return "C++"
    if name in GNU:
        return "GNU C"
    return "the preprocessor" if name in PREPROCESSOR else ""


def reserved_because(name: str) -> str:
    """Say why ISO C or C++ reserves ``name`` in a program that includes a header, or nothing.

    Sources: ISO/IEC 9899:2011, 7.1.3; ISO/IEC 14882:2017, 5.10 (a double underscore anywhere).
    """
    if name.startswith("__"):
        return "names that start with two underscores belong to the compiler"
    if name.startswith("_") and name[1:2].isupper():
        return "names that start with an underscore and a capital belong to the compiler"
    if name.startswith("_"):
        return "names that start with an underscore belong to the compiler at file scope"
    if "__" in name:
        return "C++ keeps names with two underscores in a row for the compiler"
    if name[0] in "uiUIPSW" and re.fullmatch(STDINT, name):
        return "<stdint.h>, which the header includes, defines it"
    return ""
