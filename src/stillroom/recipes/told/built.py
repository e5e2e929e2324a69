"""One jar of a recipe layer by layer, in plain data: volumes in ml, weights in grams."""

from stillroom.processes.model import Answer
from stillroom.processes.told import match_json
from stillroom.recipes.build import ESTIMATED, Build
from stillroom.recipes.first import First
from stillroom.recipes.layers import Layer
from stillroom.recipes.measures import Measured, between
from stillroom.recipes.packing import Range


def build_json(
    made: Build, first: tuple[First, ...], count: int, verdict: str, answer: Answer | None
) -> dict[str, object]:
    """The build in the shape outside checks read; keys may be added, never taken away.

    ``answer`` is ``None`` where no elevation is known or the ``verdict`` is not *tested*: a
    printed row does not hold for such a recipe.
    """
    refusal = answer.refusal if answer else None
    return {
        "recipe": made.name,
        "title": made.title,
        "food": made.food,
        "form": made.form,
        "pack": made.pack,
        "jar": made.jar,
        "jars": count,
        "headspace_in": made.headspace_in,
        "room_ml": round(made.room * 1e6, 1),
        "layers": [_layer_json(layer) for layer in made.layers],
        "not_in_jar": [_part_json(item) for item in made.strained],
        "solids_share": _range(made.share, 1.0, 3),
        "liquid_ml": _range(made.liquid, 1e6, 1),
        "liquid": between(made.liquid) if made.liquid else None,
        "poured": made.poured or None,
        "fits": [{"kind": fit.kind, "message": fit.message} for fit in made.fits],
        "acid": made.acid or None,
        "make_first": [
            {
                "name": one.name,
                "make_ml": round(one.make * 1e6, 1),
                "written_ml": round(one.written * 1e6, 1),
                "taken_ml": _range(one.taken, 1e6, 1),
                "parts": [_part_json(part) for part in one.parts],
                "text": one.text,
            }
            for one in first
        ],
        "verdict": verdict,
        "processes": [match_json(match) for match in answer.matches] if answer else [],
        "refusal": {"code": refusal.code, "reason": refusal.reason} if refusal else None,
        "elevation_ft": answer.elevation_ft if answer else None,
        "estimated": ESTIMATED,
    }


def _layer_json(layer: Layer) -> dict[str, object]:
    return {
        "name": layer.name,
        "kind": layer.kind,
        "step": layer.step,
        "in_fill_list": not layer.ours,
        "amounts": [_part_json(item) for item in layer.items],
        "volume_ml": _range(layer.volume, 1e6, 1),
        "stands_ml": round(layer.stands * 1e6, 1),
    }


def _part_json(item: Measured) -> dict[str, object]:
    return {
        "food": item.food,
        "prep": item.prep,
        "cups": item.by_cup or None,
        "grams": round(float(item.grams), 1) if item.grams is not None else None,
        "weight": item.by_weight or None,
        "as_bought": item.as_purchased or None,
        "optional": item.optional,
    }


def _range(held: Range | None, times: float, digits: int) -> list[float] | None:
    return [round(held.low * times, digits), round(held.high * times, digits)] if held else None
