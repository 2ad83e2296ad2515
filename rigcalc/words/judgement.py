"""The judgement as the first word of every answer; the same in terminal, page and sheet."""

from __future__ import annotations

from rigcalc.models.machine.judgement import Judgement

JUDGEMENTS = {Judgement.GO: "Go", Judgement.TRY: "Try it first", Judgement.DONT: "Don't"}
