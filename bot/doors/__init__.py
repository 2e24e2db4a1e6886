"""Where the outside comes in: parse, call one function, answer. No decisions here."""
