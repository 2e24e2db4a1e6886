"""Signs to ranked causes, the best question, the reasons, danger and the fitting action. Pure."""
