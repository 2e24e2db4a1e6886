"""Opens content/ strictly: shapes and loaders."""
