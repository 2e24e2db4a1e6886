"""What the chicks do, what the thermometer says, and the answers to what we asked about it: one
action with the time we look again, or one question. `answer.observe` is the way in.

`scene` is what one answer is decided on; `advise` gives an action; `asking` puts a question, or the
safest action where there is none left; `chicks`, `readings` and `checking` decide which of them.
"""
