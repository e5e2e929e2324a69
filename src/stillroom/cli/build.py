"""``stillroom build``: one jar of a recipe layer by layer, as text, JSON, a drawing or a card."""

import argparse
import json
from collections.abc import Iterator
from pathlib import Path

from stillroom.cli import ANSWERED, REFUSED
from stillroom.cli.heat.say import CAUTION, bullets, paragraph, table
from stillroom.errors import InputError
from stillroom.processes.model import Answer
from stillroom.recipes.build import ESTIMATED, Build, build, reordered
from stillroom.recipes.check.own import judge, process_of
from stillroom.recipes.first import First, make_first
from stillroom.recipes.measures import between
from stillroom.recipes.model import Recipe
from stillroom.recipes.read import read_recipe, starter
from stillroom.recipes.told.built import build_json
from stillroom.units.elevation import parse_elevation
from stillroom.units.jars import SIZES, parse_jar
from stillroom.units.rulers import inches

_MOST_JARS = 5000


def run(arguments: argparse.Namespace) -> int:
    """Build the jar and show it; write the drawing and the card where asked; 3 where an elevation
    is told and there is no published process, or none that holds for the recipe."""
    figure, card = _ending(arguments.figure, ".svg", "--figure"), _ending(
        arguments.card, ".pdf", "--card"
    )  # fmt: skip
    if not 1 <= arguments.jars <= _MOST_JARS:
        raise InputError(f"--jars: {arguments.jars} does not fit. Say 1 to {_MOST_JARS:,}.")
    if card and not arguments.elevation:
        raise InputError(
            '--card: a card tells the process of one kitchen. Say --elevation, such as "5200 ft".'
        )
    said = arguments.recipe
    if not said.endswith(".toml") and Path(said).is_file():
        raise InputError(
            f'RECIPE: "{said}" is no recipe file (.toml). Write it as one with '
            f'stillroom recipe "{said}" --toml, and build that.'
        )
    recipe = read_recipe(Path(said)) if said.endswith(".toml") else starter(said, "RECIPE")
    made = build(recipe, _jar(recipe, arguments.jar))
    if arguments.order is not None:
        made = reordered(made, [name for name in arguments.order.split(",") if name.strip()])
    feet = parse_elevation(arguments.elevation, "--elevation") if arguments.elevation else None
    verdict, answer = judge(recipe).verdict, process_of(recipe, made.jar, feet)
    first = make_first([(recipe, made.jar, arguments.jars)])
    if figure:
        from stillroom.paper.jar_figure import jar_figure

        _write(figure, jar_figure(made).encode(), "--figure")
    if card and feet is not None:
        from stillroom.paper.recipe_card import recipe_card

        printed = recipe_card(recipe, made, count=arguments.jars, elevation_ft=feet)
        _write(card, printed, "--card")
    if arguments.json:
        told = build_json(made, first, arguments.jars, verdict, answer)
        print(json.dumps(told, ensure_ascii=False))
    else:
        print("\n".join(as_text(made, first, arguments.jars, verdict, answer)))
    return ANSWERED if feet is None or (answer and not answer.refusal) else REFUSED


def _jar(recipe: Recipe, said: str | None) -> str:
    if said:
        return parse_jar(said, "--jar")
    return max(recipe.jars, key=SIZES.index)


def _ending(said: str | None, ending: str, where: str) -> Path | None:
    if not said:
        return None
    if Path(said).suffix.lower() != ending:
        raise InputError(f'{where}: "{said}" does not end in {ending}. Name it so.')
    return Path(said)


def _write(path: Path, made: bytes, where: str) -> None:
    try:
        path.write_bytes(made)
    except (OSError, ValueError) as wrong:
        # ValueError: no file system takes a name with a NUL character in it.
        why = wrong.strerror if isinstance(wrong, OSError) else "this cannot be a file name"
        raise InputError(
            f"{where}: {path} cannot be written ({why}). Name a folder that is there and yours."
        ) from None


def as_text(
    made: Build, first: tuple[First, ...], count: int, verdict: str, answer: Answer | None
) -> Iterator[str]:
    """The build for a person: what goes in, in order, then what to know."""
    form = f", {made.form}" if made.form else ""
    yield f"{made.title}: one {made.jar} jar"
    yield f"{made.food}{form}, {made.pack} pack; headspace {inches(made.headspace_in)} in"
    yield ""
    rows = [["", "layer", "in one jar"]]
    for place, layer in enumerate(made.layers, 1):
        amount = layer.said
        if layer.name == made.poured:
            amount = f"about {between(made.liquid or layer.volume)}, to the headspace line"
        wanted = bool(layer.items) and all(item.optional for item in layer.items)
        rows.append([str(place), layer.name, amount + (", if wanted" if wanted else "")])
    yield from table(rows, right=(0,))
    if made.strained:
        yield f"\nNot in the jar: {', '.join(item.food for item in made.strained)}."
    if made.share_told:
        yield f"\n{made.share_told}"
    yield from bullets("Will it fit", (f"{fit.kind}: {fit.message}" for fit in made.fits))
    yield from bullets("Acid", (made.acid,) if made.acid else ())
    yield from bullets(f"Make first, for {count}", (one.text for one in first))
    if verdict != "tested":
        yield f"\nThis recipe is {verdict} as it stands, so no process is shown."
        yield paragraph("stillroom check tells why, line by line.")
    elif answer:
        yield from _process(answer)
    yield ""
    yield paragraph(ESTIMATED)
    yield ""
    yield paragraph(CAUTION)


def _process(answer: Answer) -> Iterator[str]:
    yield f"\nPublished process at {answer.elevation_ft:,} ft:"
    if answer.refusal:
        yield paragraph(answer.refusal.reason)
        return
    rows = [["canner", "minutes", "pressure", "option"]]
    for row in answer.processes:
        pressure = f"{row.psi} lb" if row.psi else "boiling"
        rows.append([row.method, str(row.minutes), pressure, row.option])
    yield from table(rows, right=(1, 2))
    yield from bullets("Source", (row.citation for row in answer.processes))
