"""The nine places that are photographed before and after: what is drawn there, and where its holes are."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from .bodies import (
    BRASS,
    CAST,
    DARK,
    PAINT,
    RUBBER,
    STEEL,
    ZINC,
    bolt,
    box,
    circle,
    clamp,
    hole,
    hose,
    hull,
    paint_mark,
    plate,
    rag,
)
from .relief import Point, Relief

BLUE, GREY = (0.10, 0.22, 0.52), (0.30, 0.31, 0.33)


@dataclass(frozen=True)
class Place:
    """One place: the element that it shows, its holes or itself as points, and how it is drawn."""

    name: str
    element: str
    points: Sequence[Point]
    draw: Callable[[Relief, str], None]
    fault: bool = False
    """Whether the half-finished job left it otherwise than the clean one."""
    by_hole: bool = True


NECK = ((430.0, 330.0), (770.0, 330.0), (600.0, 640.0))
PUMP = ((395.0, 265.0), (805.0, 265.0), (805.0, 635.0), (395.0, 635.0))
INLET = (*((x, 300.0) for x in (195.0, 445.0, 755.0, 1005.0)), (445.0, 620.0), (755.0, 620.0))
STRAP = ((300.0, 520.0), (900.0, 380.0))
BRACKET = ((360.0, 330.0), (360.0, 600.0))
ADJUSTER = ((330.0, 620.0), (760.0, 330.0))


def _neck(on: Relief, state: str) -> None:
    on.ground(PAINT)
    plate(on, box((160, 120), (880, 660), 120), 26, PAINT, edge=26)
    plate(on, hull([(at, 74) for at in NECK]), 46, CAST, edge=12)
    hose(on, [(600, 130), (600, -90)], 100, 66)
    plate(on, circle((600, 440), 116), 84, CAST, edge=34)
    hose(on, [(600, 440), (600, 140)], 80, 84, CAST)
    clamp(on, (600, 95), 1.57, 100, 70)
    for number, at in enumerate(NECK):
        if number == 2 and state == "fault":
            hole(on, at, 22, 46)
        else:
            bolt(on, at, 44, 46, turn=0.4 + number)


def _pump(on: Relief, state: str) -> None:
    on.ground(PAINT)
    hose(on, [(600, 450), (260, 480), (-100, 560)], 74, 40)
    hose(on, [(600, 450), (860, 640), (1010, 1000)], 74, 40)
    plate(on, hull([(at, 62) for at in PUMP]), 52, CAST, edge=14)
    plate(on, circle((600, 450), 172), 96, CAST, edge=30)
    plate(on, circle((600, 450), 138), 104, BRASS, edge=4, gloss=0.7)
    for k in range(6):
        turn = k * math.pi / 3 + 0.5
        bolt(on, (600 + 112 * math.cos(turn), 450 + 112 * math.sin(turn)), 17, 104, turn=turn)
    clamp(on, (310, 472), 3.05, 74, 40)
    clamp(on, (925, 745), 1.1, 74, 40)
    for number, at in enumerate(PUMP):
        bolt(on, at, 40, 52, turn=number * 0.7)


def _inlet(on: Relief, state: str) -> None:
    on.ground(PAINT)
    plate(on, box((150, 215), (900, 480), 70), 44, CAST, edge=16)
    for x in (290.0, 600.0, 910.0):
        hose(on, [(x, 470), (x, 1000)], 84, 40, CAST)
        plate(on, circle((x, 470), 100), 96, CAST, edge=60)
    hose(on, [(-20, 120), (500, 150), (1220, 90)], 16, 20)
    for number, at in enumerate(INLET):
        bolt(on, at, 40, 44, turn=number * 0.9)
        if state != "before":
            paint_mark(on, at, 40, -0.5 + number * 0.35)


def _strap(on: Relief, state: str) -> None:
    on.ground(PAINT)
    hose(on, [(430, -60), (520, 420), (560, 980)], 82, 24)
    hose(on, [(660, -60), (700, 430), (690, 980)], 66, 24, (0.20, 0.06, 0.05))
    for at in STRAP:
        plate(on, circle(at, 66), 30, PAINT, edge=10)
    if state == "fault":
        plate(on, hull([((300, 520), 40), ((330, 20), 34)]), 62, ZINC, edge=6, gloss=0.7)
    else:
        plate(on, hull([(at, 44) for at in STRAP]), 104, ZINC, edge=20, gloss=0.7)
    for number, at in enumerate(STRAP):
        base = 106 if state != "fault" else 64 if number == 0 else 32
        bolt(on, at, 42, base, turn=0.2 + number, proud=46 if state == "fault" else 0)


def _bracket(on: Relief, state: str) -> None:
    on.ground(PAINT)
    plate(on, circle((830, 460), 310), 130, CAST, edge=90)
    for k in range(12):
        turn = k * math.pi / 6
        slot = [((830 + r * math.cos(turn), 460 + r * math.sin(turn)), 15) for r in (150, 235)]
        on.lay(hull(slot), 70, DARK, gloss=0.05)
    plate(on, circle((830, 460), 84), 168, STEEL, edge=20, gloss=0.6)
    plate(on, box((255, 200), (210, 530), 46), 70, STEEL, edge=10)
    plate(on, box((420, 380), (260, 170), 40), 140, STEEL, edge=12)
    for number, at in enumerate(BRACKET):
        bolt(on, at, 58, 70, turn=0.5 + number * 0.6)


def _filler(on: Relief, state: str) -> None:
    on.ground(PAINT)
    plate(on, box((110, 130), (980, 640), 110), 70, BRASS, edge=46, gloss=0.55)
    hose(on, [(820, 300), (1000, 180), (1300, 120)], 44, 90)
    if state != "fault":
        plate(on, circle((520, 450), 190), 150, CAST, edge=14, gloss=0.6)
        plate(on, hull([((330, 450), 34), ((710, 450), 34)]), 168, CAST, edge=16, gloss=0.6)
        plate(on, circle((520, 450), 118), 176, CAST, edge=24, gloss=0.6)
        return
    plate(on, circle((520, 450), 168), 116, BRASS, edge=10, gloss=0.6)
    hole(on, (520, 450), 132, 116, 110)
    plate(on, circle((870, 590), 176), 128, CAST, edge=14, gloss=0.6)
    plate(on, hull([((740, 470), 32), ((1000, 710), 32)]), 146, CAST, edge=16, gloss=0.6)
    plate(on, circle((870, 590), 110), 152, CAST, edge=24, gloss=0.6)


def _under_pump(on: Relief, state: str) -> None:
    on.ground(GREY, rough=1.6)
    plate(on, box((-120, -160), (1440, 330), 60), 110, PAINT, edge=30)
    plate(on, circle((610, 60), 190), 150, CAST, edge=50)
    hose(on, [(-60, 300), (380, 250), (600, 120)], 58, 70)
    plate(on, box((-60, 790), (1320, 200), 30), 60, (0.34, 0.23, 0.13), edge=12, gloss=0.05)
    if state == "before":
        rag(on, (790, 560), (240, 150), BLUE, 21)
    if state in ("before", "fault"):
        rag(on, (360, 520), (210, 150), BLUE, 41)


def _sender(on: Relief, state: str) -> None:
    on.ground(PAINT)
    plate(on, box((230, 190), (740, 560), 150), 60, CAST, edge=50)
    for at in ((330.0, 290.0), (870.0, 290.0), (870.0, 650.0), (330.0, 650.0)):
        bolt(on, at, 34, 60, turn=at[0])
    plate(on, circle((600, 470), 112), 74, BRASS, edge=10, gloss=0.6)
    bolt(on, (600, 470), 88, 74, turn=0.2)
    if state == "fault":
        on.lay(circle((600, 470), 52), 124, BRASS, gloss=0.6)
        for x in (578, 622):
            plate(on, box((x - 8, 452), (16, 36), 4), 150, ZINC, edge=4, gloss=0.9)
        _plug(on, (985, 700), [(985, 640), (1010, 480), (1110, 260), (1260, 120)], 60)
    else:
        _plug(on, (600, 470), [(600, 400), (680, 250), (900, 130), (1260, 60)], 130)


def _plug(on: Relief, at: Point, lead: Sequence[Point], base: float) -> None:
    for aside in (-16, 16):
        hose(on, [(x + aside, y) for x, y in lead], 11, base + 6, RUBBER if aside < 0 else (0.45, 0.08, 0.06))
    plate(on, box((at[0] - 62, at[1] - 78), (124, 156), 22), base + 44, (0.15, 0.15, 0.16), edge=12)
    plate(on, box((at[0] - 30, at[1] - 62), (60, 74), 10), base + 56, GREY, edge=6)


def _adjuster(on: Relief, state: str) -> None:
    on.ground(PAINT)
    plate(on, circle((980, 700), 216), 92, RUBBER, edge=20)
    plate(on, circle((980, 700), 184), 100, STEEL, edge=8, gloss=0.5)
    plate(on, circle((980, 700), 70), 124, STEEL, edge=16, gloss=0.6)
    hose(on, [(820, 820), (180, -30)], 26, 66, RUBBER)
    hose(on, [(1140, 580), (560, -190)], 26, 66, RUBBER)
    plate(on, hull([((250, 680), 66), ((880, 250), 66)]), 108, ZINC, edge=8, gloss=0.6)
    on.lay(hull([((470, 530), 24), ((845, 275), 24)]), 84, DARK, gloss=0.05)
    for number, at in enumerate(ADJUSTER):
        bolt(on, at, 46, 108, turn=0.1 + number)


PLACES = (
    Place("water-neck", "water neck bolts", NECK, _neck, fault=True),
    Place("raw-water-pump", "raw-water pump bolts", PUMP, _pump),
    Place("inlet-manifold", "inlet manifold bolts", INLET, _inlet),
    Place("hose-strap", "hose strap bolts", STRAP, _strap, fault=True),
    Place("alternator-bracket", "alternator bracket bolts", BRACKET, _bracket),
    Place("coolant-filler", "coolant filler", ((520.0, 450.0),), _filler, fault=True, by_hole=False),
    Place("under-the-pump", "blue rag", ((390.0, 520.0),), _under_pump, fault=True, by_hole=False),
    Place("sender-plug", "temperature sender plug", ((600.0, 470.0),), _sender, fault=True, by_hole=False),
    Place("adjuster", "alternator adjuster bolts", ADJUSTER, _adjuster),
)
