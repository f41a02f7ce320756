"""The units that numbers carry through the rooms; never imports anything of ours."""

from typing import NewType

NewtonMetres = NewType("NewtonMetres", float)
Millimetres = NewType("Millimetres", float)
Degrees = NewType("Degrees", float)
