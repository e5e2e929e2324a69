"""What was understood of a paste, in plain data."""

from stillroom.recipes.pasted import Facts, Pasted, PastedLine


def pasted_json(pasted: Pasted) -> dict[str, object]:
    """Lines, foods met, facts, method and what was not understood."""
    return {
        "title": pasted.title,
        "kind": pasted.kind,
        "ingredients": [_line_json(one) for one in pasted.lines],
        "facts": _facts_json(pasted.facts),
        "mentions": [
            {
                "food": one.food,
                "said": one.said,
                "line": one.line,
                "where": one.where,
                "left_out": one.negated,
                "at_serving": one.at_serving,
            }
            for one in pasted.mentions
        ],
        "method": list(pasted.method),
        "not_understood": [{"line": line, "text": text} for line, text in pasted.not_understood],
    }


def _line_json(one: PastedLine) -> dict[str, object]:
    return {
        "line": one.line,
        "text": one.text,
        "food": one.food,
        "food_said": one.food_said,
        "quantity": float(one.high.value) if one.high else None,
        "quantity_from": float(one.low.value) if one.low else None,
        "unit": one.high.unit if one.high else "",
        "unit_said": one.unit_said,
        "prep": one.prep,
        "remark": one.remark,
        "per": one.per,
        "optional": one.optional,
        "to_taste": one.to_taste,
        "to_cover": one.to_cover,
        "at_serving": one.at_serving,
        "shares_amount": one.joint,
        "from_title": one.implied,
        "from_method": one.from_method,
        "alternatives": list(one.alternatives),
        "spelling": one.mended,
        "section": one.section,
        "left_over": list(one.left_over),
    }


def _facts_json(facts: Facts) -> dict[str, object]:
    return {
        "packs": list(facts.packs),
        "jars": list(facts.jars),
        "headspaces_in": list(facts.headspaces),
        "minutes": [
            {"minutes": m.minutes, "what": m.what, "jar": m.jar, "said": m.said, "line": m.line}
            for m in facts.minutes
        ],
        "pressure_psi": list(facts.psi),
        "methods": list(facts.methods),
        "half_solids": facts.half_solids,
        "vinegar_percent": list(facts.vinegar_percent),
        "pureed": facts.pureed,
        "thickened": facts.thickened,
        "soaked": facts.soaked,
        "vented": facts.vent_said,
        "own_source": facts.own_source,
        "makes": [{"count": count, "jar": jar} for count, jar in facts.makes],
        "flags": sorted(facts.flags),
    }
