"""One file per thing a farmer wants: meaning and case in, decision out. Pure."""
