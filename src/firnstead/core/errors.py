"""Every error of Firnstead, in one place.

FirnsteadError                     exit code 2 unless said otherwise
├── InputError                     the station file or a data file is wrong; carries every problem
├── UnitError (also ValueError)    a quantity cannot be read
├── NoSuchPlace (also KeyError)    a name asked for on the command line is not in the file
├── UnknownSource (also KeyError)  a source key is not in core/sources.toml
├── FormulaError (also ValueError) a step of a working cannot be read or worked out
└── OutputError                    the output could not be written; nothing half-made is left
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, order=True)
class Problem:
    """One thing wrong with the input: where it is, what is wrong, how to mend it."""

    file: str
    line: int
    path: str
    what: str
    cure: str

    def __str__(self) -> str:
        place = f"{self.file}:{self.line}"
        where = f" {self.path}:" if self.path else ""
        return f"{place}:{where} {self.what}. {self.cure}".rstrip()


class FirnsteadError(Exception):
    """Something went wrong that the user can mend."""

    exit_code = 2


class InputError(FirnsteadError):
    """The input is wrong; `problems` lists all that was found, in file order."""

    def __init__(self, problems: list[Problem]) -> None:
        self.problems = sorted(set(problems))
        super().__init__("\n".join(str(p) for p in self.problems))


class UnitError(FirnsteadError, ValueError):
    """A text is not a quantity of the wanted kind; says what is wrong and the cure."""

    def __init__(self, what: str, cure: str) -> None:
        self.what, self.cure = what, cure
        super().__init__(f"{what}. {cure}")


class NoSuchPlace(FirnsteadError, KeyError):
    """A place, building or discipline that is not in the station."""

    def __str__(self) -> str:
        return str(self.args[0])


class UnknownSource(FirnsteadError, KeyError):
    """A source key that is not in core/sources.toml."""

    def __str__(self) -> str:
        return str(self.args[0])


class FormulaError(FirnsteadError, ValueError):
    """A formula of a working cannot be read, or gives no number with its inputs."""


class OutputError(FirnsteadError):
    """The output could not be written."""
