"""What was read of a paste, told to a person: a line, and what the method says."""

from fractions import Fraction

from stillroom.recipes.pasted import Facts, PastedLine
from stillroom.units.amounts import Amount
from stillroom.units.speech import counted, say, say_metric


def understood(one: PastedLine) -> str:
    """What was understood of a line: amount, food and prep in words.

    Examples
    --------
    >>> from stillroom.recipes.text.page import read_paste
    >>> understood(read_paste("Stew\\n3 lb venison cubes, browned").lines[0])
    '3 lb (1.36 kg) venison (cubes, browned)'
    """
    said = []
    if one.high is not None and one.low is not None:
        low, high = _amount(one.low), _amount(one.high)
        said.append(high if one.low == one.high else f"{low} to {high}")
    elif one.joint:
        said.append("(shares the amount before)")
    else:
        said.append("no amount,")
    if one.per:
        said.append(f"for each {one.per},")
    food = " or ".join(one.alternatives) or one.food or "a food that is not in the food list"
    said.append(f"{food}{f' ({one.prep})' if one.prep else ''}")
    marks = [
        word
        for word, told in (
            ("optional", one.optional),
            ("to taste", one.to_taste),
            ("to cover", one.to_cover),
            ("for serving day", one.at_serving),
            ("food taken from the title", one.implied),
            ("found in the method", one.from_method),
            (f"remark: {one.remark}", bool(one.remark)),
            (one.mended, bool(one.mended)),
        )
        if told
    ]
    return " ".join(said) + (f"; {'; '.join(marks)}" if marks else "")


def _amount(amount: Amount) -> str:
    if amount.kind == "count":
        return counted(amount.value, amount.unit)
    return f"{say(amount)} ({say_metric(amount)})"


def facts_told(facts: Facts) -> list[str]:
    """What title and method say of pack, jars and process, a line each."""
    told = [
        ("pack", ", ".join(facts.packs)),
        ("jars", ", ".join(facts.jars)),
        ("makes", ", ".join(counted(Fraction(count), jar) for count, jar in facts.makes)),
        ("headspace", ", ".join(f"{inches:g} in" for inches in facts.headspaces)),
        ("how it is heated", ", ".join(facts.methods)),
        ("gauge pressure", ", ".join(f"{psi:g} lb" for psi in facts.psi)),
        ("venting", "said" if facts.vent_said else ""),
        ("solids", {True: "half the jar", False: "more than half"}.get(facts.half_solids, "")
         if facts.half_solids is not None else ""),
        ("strength of vinegar", ", ".join(f"{p:g} percent" for p in facts.vinegar_percent)),
        ("pureed or mashed", "yes" if facts.pureed else ""),
        ("thickened", "yes" if facts.thickened else ""),
        ("named source", facts.own_source),
    ]  # fmt: skip
    lines = [f"{name}: {text}" for name, text in told if text]
    lines += [f"{m.minutes} min: {m.what}{f' for {m.jar}' if m.jar else ''}" for m in facts.minutes]
    return lines or ["nothing about pack, jars or process"]
