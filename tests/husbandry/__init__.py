"""The science, formula by formula."""
