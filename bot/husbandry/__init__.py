"""The science of the trade: one formula a function, with unit, range and source. Pure."""
