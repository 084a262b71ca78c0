"""The cautions that every face carries, in plain words, and one line for each discipline."""

from __future__ import annotations

CAUTIONS: tuple[str, ...] = (
    "This is a planning and checking aid. It does not replace the judgement of the engineer in charge.",
    "Snow varies from metre to metre. Measure density, temperature and strength where you build, and again later.",
    ("Structural, fire, electrical, air and escape verdicts are to be confirmed by licensed engineers under the codes "
     "that the owner adopts."),
    "Nobody stands, walks or works below an edge that is being cut.",
    "No person, vehicle or snow goes onto a cover before its strength has been measured.",
    "Carbon monoxide kills without smell. No engine or stove runs in a trench without measured air and an alarm.",
    "Test every escape hatch from the inside, with the snow of the season lying on it.",
)  # fmt: skip

SHORT = ("Planning and checking aid. Measure the snow. Verdicts are for licensed engineers to confirm. "
         "Nobody below an edge that is being cut; no load on a cover before its strength is measured.")  # fmt: skip

BY_DISCIPLINE: dict[str, str] = {
    "snow": "Every strength here is a band. Work with its lower edge until the snow of the site has been tested.",
    "cutting": "Nobody below an edge that is being cut, nor near the edge above it. Overhangs fall without warning.",
    "roof": "No load on an arch before both sides are filled and the snow's strength is measured. "
            "Nobody under an arch that is being covered.",
    "closure": "Trenches close, and faster where the air is warm. Every date is the middle of a wide band: measure "
               "widths and heights every month in the first year and let the readings decide.",
    "walls": "A snow-block wall holds nothing until its joints have bonded. Keep people off both sides until then.",
    "foundation": "Nobody under a building that is being raised; blocks follow every turn of the jacks. "
                  "Warmth, drains and meltwater under a floor undo every number here.",
    "fire": "Smoke under snow kills within minutes and fills passages that were clear. Everybody out first, nobody "
            "back in. Fire verdicts are for licensed fire engineers to confirm.",
    "escape": "Distances and times here are for ways that are clear, lit and known. Test every hatch from inside after "
              "every storm, drill in the dark, and never lock or block a way out.",
    "air": "Carbon monoxide kills without smell. No engine runs under the snow without measured air and an alarm where "
           "people sleep; when the fans stop, stop the engines and wake everybody. In summer the draught turns round.",
    "pipes": "Only the time to 0 °C may be counted on; ice plugs burst pipes and steam and hot water scald. Nobody "
             "thaws a closed line with a flame, nor opens one that holds pressure between two plugs.",
    "power": "Switch off, lock, test dead, then touch. Carbon monoxide kills without smell: no set runs where its "
             "exhaust can come back in.",
    "power.earthing": "Rods in ice give no earth, and a fault may blow no fuse: metal can stay live. Bond all metal "
                      "into one net, run a protective conductor with every feeder, and watch the insulation.",
    "power.exhaust": "Exhaust ends clear of every intake, vent and hatch and above the drift of the season. Alarms for "
                     "carbon monoxide stand beside the sets and in every room that air can reach from there.",
    "power.refuelling": "Bond tank, hose and set before fuel flows; no refuelling of a hot set; nobody smokes; spilt "
                        "fuel is taken up at once and never runs into the snow.",
    "water": "Steam and hot water scald. Nobody near an open shaft without a line; cover it. Boilers need measured "
             "air: carbon monoxide kills without smell. Well and sewage shafts are never mixed; test the water.",
    "heat": "Warm air closes trenches and thaws floors: read the thermometers in every trench, gap and snow floor. "
            "Every burner needs its own air and flue, and an alarm for carbon monoxide.",
    "cargo": "A part that is missing cannot be bought on the ice. Count at the port, and again on arrival.",
}  # fmt: skip


def caution_for(discipline: str) -> str:
    """The caution line of a discipline, or the general one.

    >>> caution_for("elsewhere") == SHORT
    True
    """
    return BY_DISCIPLINE.get(discipline, SHORT)
