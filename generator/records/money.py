"""Prices: an exact amount and a currency of ISO 4217."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from generator.records.grammar import QuantityError, checked

_AMOUNT = r"\d{1,12}(?:\.\d{1,4})?"
_PRICE = re.compile(rf"(?:({_AMOUNT})\s*([A-Za-z]{{3}}|[€£])|([€£]|[A-Za-z]{{3}})\s*({_AMOUNT}))", re.ASCII)
_COMMA = re.compile(r"(.*\d),(\d{1,2})(?!\d)(.*)", re.ASCII)
# Signs that one currency alone has to a buyer of fittings; `$` and `¥` have several.
_SIGNS = {"€": "EUR", "£": "GBP"}
_SHARED = {"$": ("USD", "AUD", "CAD", "NZD"), "¥": ("JPY", "CNY"), "kr": ("SEK", "NOK", "DKK")}
# ISO 4217, active currencies (codes for funds, metals and testing left out; from memory, held against
# the list of Unicode's CLDR in the tests).
_CODES = """
    AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BHD BIF BMD BND BOB BRL BSD BTN BWP BYN BZD CAD
    CDF CHF CLP CNY COP CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GNF GTQ
    GYD HKD HNL HTG HUF IDR ILS INR IQD IRR ISK JMD JOD JPY KES KGS KHR KMF KPW KRW KWD KYD KZT LAK LBP LKR
    LRD LSL LYD MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR NZD OMR PAB PEN
    PGK PHP PKR PLN PYG QAR RON RSD RUB RWF SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB
    TJS TMT TND TOP TRY TTD TWD TZS UAH UGX USD UYU UZS VED VES VND VUV WST XAF XCD XOF XPF YER ZAR ZMW ZWG
"""
CURRENCIES = frozenset(_CODES.split())


@dataclass(frozen=True)
class Money:
    """An amount of one currency.

    Attributes:
        text: As written.
        amount: Exact, with the decimals as written.
        currency: Three letters of ISO 4217.
    """

    text: str
    amount: Decimal
    currency: str


def parse_currency(text: str) -> str:
    """Read a currency: `USD`, in the letters of ISO 4217.

    Raises:
        QuantityError: It is no currency, or not one alone.
    """
    written = checked(text)
    found = _SIGNS.get(written, written)
    if found in CURRENCIES:
        return found
    right = written.upper()
    accepted = (right,) if right in CURRENCIES else ("EUR", "USD")
    raise QuantityError("not a currency: three letters of ISO 4217", accepted)


def parse_money(text: str) -> Money:
    """Read a price: `4.80 EUR`, `€4.80`.

    Raises:
        QuantityError: It is something else, or the sign belongs to several currencies.
    """
    written = checked(text)
    example = ("4.80 EUR",)
    if comma := _COMMA.fullmatch(written):
        raise QuantityError(f"a decimal comma; write {comma[1]}.{comma[2]}{comma[3]}", example)
    for sign, several in _SHARED.items():
        if sign in written:
            raise QuantityError(f"'{sign}' may be several currencies; write which", several)
    found = _PRICE.fullmatch(written)
    if found is None:
        raise QuantityError("not a price: an amount and three letters for the currency", example)
    amount, code = (found[1], found[2]) if found[1] else (found[4], found[3])
    currency = _SIGNS.get(code, code)
    if currency not in CURRENCIES:
        right = currency.upper()
        told = (f"{amount} {right}",) if right in CURRENCIES else example
        raise QuantityError(f"'{currency}' is no currency of ISO 4217", told)
    return Money(text.strip(), Decimal(amount), currency)
