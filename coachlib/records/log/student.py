"""A student as the coach keeps them: name, alias, what was agreed to, and their numbers as a bowler."""

import dataclasses
from typing import Annotated

from coachlib.validation import Letters, thing
from coachlib.world.bowler import Bowler


@thing
class Student:
    """A person whose sessions are kept.

    Parameters
    ----------
    name : str
        Their name.
    alias : str
        What they are called wherever something is shown, printed or exported under alias; empty: the name.
    consent_note : str
        Who agreed to what and when, in the coach's words: "Mother agreed to notes, no scores, 3 Sept".
    bowler : Bowler
        Their numbers; the name in it is not used.
    """

    name: Annotated[str, Letters(80, least=1)]
    alias: Annotated[str, Letters(80)] = ""
    consent_note: Annotated[str, Letters(2000)] = ""
    bowler: Bowler = dataclasses.field(default_factory=Bowler)

    @property
    def shown_name(self) -> str:
        """The alias where there is one, else the name."""
        return self.alias.strip() or self.name

    @property
    def called(self) -> str:
        """What a letter home calls them: the alias where there is one, else the first word of the name."""
        return self.alias.strip() or (self.name.split() or [""])[0]

    @property
    def as_bowler(self) -> Bowler:
        """The bowler under the name that is shown, to start a session with."""
        return dataclasses.replace(self.bowler, name=self.shown_name)
